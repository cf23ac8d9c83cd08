import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Photo } from '../../models/schema/deskEndpoints.ts';
import { maxPhotoBytes, photoType } from '../../server/store/photos.ts';
import { deskFleet } from './deskFleet.ts';
import { startServer, type Running } from './running.ts';

let server: Running;
let finding = 0;
let batch = '';
const post = (path: string, body: unknown): Promise<Response> =>
  fetch(server.address + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

beforeAll(async () => {
  server = await startServer();
  await post('/api/own', {});
  const uploads: string[] = [];
  for (const [name, body] of Object.entries(deskFleet())) {
    const init = { method: 'POST', headers: { 'content-type': 'application/octet-stream' }, body };
    const answer = await fetch(`${server.address}/api/uploads?name=${name}`, init);
    uploads.push(((await answer.json()) as { upload: string }).upload);
  }
  await post('/api/intake', { uploads });
  const kept = (await (
    await post('/api/units/B1/findings', {
      technician: 'Bo Lind',
      findings: [{ finding: 'ventilation_fault', value: 'yes' }],
    })
  ).json()) as { batch: string; kept: { id: number }[] };
  finding = kept.kept[0].id;
  batch = kept.batch;
});
afterAll(async () => server.stop());

// the smallest whole PNG: one clear pixel
const png = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);
const jpeg = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1, 1, 0]);
const webp = Buffer.from('RIFF\x1a\0\0\0WEBPVP8L', 'latin1');

const add = (body: Buffer, to: number | string = finding, by = 'Bo Lind'): Promise<Response> =>
  fetch(`${server.address}/api/findings/${to}/photos?addedBy=${encodeURIComponent(by)}`, {
    method: 'POST',
    headers: { 'content-type': 'image/png' },
    body: new Uint8Array(body),
  });
const photos = async (): Promise<Photo[]> =>
  ((await (await fetch(`${server.address}/api/units/B1/photos`)).json()) as { photos: Photo[] }).photos;

describe('photos of findings', () => {
  // first bytes by the JPEG (ITU-T T.81), PNG (ISO/IEC 15948) and WebP (RFC 9649) formats
  test('are told by their first bytes, whatever the request says', () => {
    expect([png, jpeg, webp].map(photoType)).toEqual(['image/png', 'image/jpeg', 'image/webp']);
    for (const other of ['<svg xmlns="http://www.w3.org/2000/svg"/>', 'GIF89a', '<html>', 'RIFF0000WAVE', ''])
      expect(photoType(Buffer.from(other))).toBeNull();
  });

  test('are kept once, served so that a browser can only show them, and removed by a named person', async () => {
    const first = await add(png);
    expect(first.status).toBe(200);
    const kept = (await first.json()) as Photo;
    expect(kept).toMatchObject({ finding, type: 'image/png', bytes: png.length, addedBy: 'Bo Lind' });
    expect(((await (await add(png)).json()) as Photo).id).toBe(kept.id);
    await add(jpeg);
    expect((await photos()).map(({ type }) => type)).toEqual(['image/jpeg', 'image/png']);

    const shown = await fetch(`${server.address}/api/photos/${kept.id}`);
    expect(Buffer.from(await shown.arrayBuffer()).equals(png)).toBe(true);
    expect(shown.headers.get('content-type')).toBe('image/png');
    expect(shown.headers.get('x-content-type-options')).toBe('nosniff');
    expect(shown.headers.get('content-security-policy')).toBe("default-src 'none'; sandbox");
    expect(shown.headers.get('content-disposition')).toMatch(/^inline; filename="photo-\d+\.png"$/);

    expect((await post(`/api/photos/${kept.id}/removal`, { removedBy: 'none' })).status).toBe(422);
    expect(await (await post(`/api/photos/${kept.id}/removal`, { removedBy: 'Bo Lind' })).json()).toEqual({
      removed: 1,
    });
    expect((await fetch(`${server.address}/api/photos/${kept.id}`)).status).toBe(404);
  });

  test('that are too large, no picture, of no finding or in no name are refused with a reason', async () => {
    const codeOf = async (answer: Response): Promise<[number, string]> => [
      answer.status,
      ((await answer.json()) as { code: string }).code,
    ];
    expect(await codeOf(await add(Buffer.concat([jpeg, Buffer.alloc(maxPhotoBytes)])))).toEqual([
      413,
      'too_large',
    ]);
    expect(await codeOf(await add(Buffer.from('<svg onload="x()"/>')))).toEqual([415, 'no_photo']);
    expect(await codeOf(await add(png, 999_999))).toEqual([404, 'no_finding']);
    expect(await codeOf(await add(png, 'x'))).toEqual([404, 'no_finding']);
    expect(await codeOf(await add(png, finding, 'n/a'))).toEqual([422, 'no_name']);
    expect((await fetch(`${server.address}/api/photos/x`)).status).toBe(404);
  });

  test('go with their finding when its batch is taken back, and the store refuses what is no picture', async () => {
    const store = await server.context.own();
    const insert = store.sqlite.prepare(
      "INSERT INTO photo (finding_id, type, content, content_hash, added_by, added_at) VALUES (?, ?, ?, 'h', 'Bo Lind', '')",
    );
    expect(() => insert.run(finding, 'image/svg+xml', png)).toThrow(/CHECK/);
    expect(() => insert.run(999_999, 'image/png', png)).toThrow(/FOREIGN KEY/);
    expect(await photos()).toHaveLength(1);
    expect((await post(`/api/intake/batches/${batch}/undo`, {})).status).toBe(200);
    expect(await photos()).toEqual([]);
    expect(server.log).toEqual([]);
  });
});
