import { createHash } from 'node:crypto';
import type { Photo } from '../../models/schema/deskEndpoints.ts';
import type { Store } from './openStore.ts';

/** The largest photo that is kept, bytes. */
export const maxPhotoBytes = 8 * 1024 * 1024;

const columns =
  'p.id, p.finding_id AS finding, p.type, length(p.content) AS bytes, p.added_by AS addedBy, p.added_at AS addedAt';

/** What a picture is by its first bytes (JPEG, PNG and WebP file formats); null: none of them. */
export function photoType(content: Uint8Array): Photo['type'] | null {
  const starts = (bytes: readonly number[], at = 0): boolean =>
    bytes.every((byte, index) => content[at + index] === byte);
  if (starts([0xff, 0xd8, 0xff])) return 'image/jpeg';
  if (starts([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'image/png';
  if (starts([0x52, 0x49, 0x46, 0x46]) && starts([0x57, 0x45, 0x42, 0x50], 8)) return 'image/webp';
  return null;
}

/** Whether there is such a finding. */
export function hasFinding(store: Store, finding: number): boolean {
  return store.sqlite.prepare('SELECT 1 FROM findings WHERE id = ?').get(finding) !== undefined;
}

/** Keeps a photo with its finding; the same picture again is the one that is there. */
export function addPhoto(
  store: Store,
  photo: { finding: number; type: Photo['type']; content: Uint8Array; addedBy: string; addedAt: string },
): Photo {
  const hash = createHash('sha256').update(photo.content).digest('hex');
  return store.sqlite.transaction(() => {
    store.sqlite
      .prepare(
        `INSERT INTO photo (finding_id, type, content, content_hash, added_by, added_at) VALUES (?, ?, ?, ?, ?, ?)
         ON CONFLICT (finding_id, content_hash) DO NOTHING`,
      )
      .run(photo.finding, photo.type, photo.content, hash, photo.addedBy, photo.addedAt);
    return store.sqlite
      .prepare(`SELECT ${columns} FROM photo p WHERE p.finding_id = ? AND p.content_hash = ?`)
      .get(photo.finding, hash) as Photo;
  })();
}

/** Photos of a unit's findings, newest first, without their pictures. */
export function photosOfUnit(store: Store, unitNumber: string): Photo[] {
  return store.sqlite
    .prepare(
      `SELECT ${columns} FROM photo p JOIN findings f ON f.id = p.finding_id
       WHERE lower(f.unit_number) = lower(?) ORDER BY p.id DESC`,
    )
    .all(unitNumber) as Photo[];
}

/** One picture, or null. */
export function photoContent(store: Store, id: number): { type: Photo['type']; content: Buffer } | null {
  const row = store.sqlite.prepare('SELECT type, content FROM photo WHERE id = ?').get(id) as
    { type: Photo['type']; content: Buffer } | undefined;
  return row ?? null;
}

/** @returns how many were removed: 1 or 0 */
export function removePhoto(store: Store, id: number): number {
  return store.sqlite.prepare('DELETE FROM photo WHERE id = ?').run(id).changes;
}
