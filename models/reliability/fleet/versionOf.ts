/**
 * Short version id of a text: 53 bits of a mixed multiply–xor hash (FNV-like, two lanes). Not for secrets, only to tell inputs apart.
 * @returns 14 hexadecimal digits
 */
export function versionOf(text: string): string {
  let first = 0xdeadbeef;
  let second = 0x41c6ce57;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    first = Math.imul(first ^ code, 0x9e3779b1);
    second = Math.imul(second ^ code, 0x5f356495);
  }
  first = Math.imul(first ^ (first >>> 16), 0x85ebca6b) ^ Math.imul(second ^ (second >>> 13), 0xc2b2ae35);
  second = Math.imul(second ^ (second >>> 16), 0x85ebca6b) ^ Math.imul(first ^ (first >>> 13), 0xc2b2ae35);
  const value = 4294967296 * (2097151 & second) + (first >>> 0);
  return value.toString(16).padStart(14, '0');
}
