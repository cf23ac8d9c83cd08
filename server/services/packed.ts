import { deserialize, serialize } from 'node:v8';

/** Plain data as text, with its maps and typed arrays. */
export function pack(value: unknown): string {
  return serialize(value).toString('base64');
}

/**
 * @param text of {@link pack}; whoever keeps it knows what it is, and keeps it under a key that names the build
 * @throws Error for another text
 */
export function unpack<T>(text: string): T {
  return deserialize(Buffer.from(text, 'base64')) as T;
}
