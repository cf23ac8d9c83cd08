/** FNV-1a over UTF-16 units, 32 bits: a public hash, the same everywhere. */
export function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return hash >>> 0;
}

/** One hash out of two. */
export function mixed(hash: number, salt: number): number {
  let sum = Math.imul(hash ^ (hash >>> 15) ^ salt, 0x2c1b3c6d);
  sum ^= sum >>> 12;
  return Math.imul(sum, 0x297a2d39) >>> 0;
}
