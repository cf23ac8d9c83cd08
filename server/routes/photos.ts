import express, { type Express } from 'express';
import type { Context } from '../context.ts';
import {
  addPhoto,
  hasFinding,
  maxPhotoBytes,
  photoContent,
  photosOfUnit,
  photoType,
  removePhoto,
} from '../store/photos.ts';
import { serveEndpoint } from './endpoint.ts';
import { named } from './named.ts';
import { Problem } from './problem.ts';

const endings = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' } as const;

/** Photos of findings: kept in the store, told by their first bytes, served so that a browser can only show them. */
export function photoRoutes(app: Express, context: Context): void {
  app.use('/api/findings/:finding/photos', (request, _response, next) => {
    if (Number(request.headers['content-length'] ?? 0) > maxPhotoBytes)
      throw new Problem(413, 'too_large', 'A photo may have at most 8 MB. Send a smaller one.');
    next();
  });
  app.use('/api/findings/:finding/photos', express.raw({ type: () => true, limit: maxPhotoBytes }));
  serveEndpoint(app, 'addPhoto', async ({ params, query, request }) => {
    const store = await context.current();
    const finding = Number(params.finding);
    const addedBy = named(query.addedBy, 'addedBy');
    if (!Number.isInteger(finding) || !hasFinding(store, finding))
      throw new Problem(404, 'no_finding', `There is no finding ${params.finding}.`);
    const content: unknown = request.body;
    const type = Buffer.isBuffer(content) ? photoType(content) : null;
    if (!Buffer.isBuffer(content) || type === null)
      throw new Problem(
        415,
        'no_photo',
        'This is no JPEG, PNG or WebP picture. Send a photo in one of these forms.',
      );
    return addPhoto(store, { finding, type, content, addedBy, addedAt: context.now() });
  });
  serveEndpoint(app, 'photos', async ({ params }) => ({
    photos: photosOfUnit(await context.current(), params.unitNumber),
  }));
  serveEndpoint(app, 'removePhoto', async ({ params, body }) => {
    named(body.removedBy, 'removedBy');
    const removed = removePhoto(await context.current(), Number(params.photo));
    if (removed === 0) throw new Problem(404, 'no_photo', `There is no photo ${params.photo}.`);
    return { removed };
  });
  app.get('/api/photos/:photo', async (request, response) => {
    const id = Number(request.params.photo);
    const found = Number.isInteger(id) ? photoContent(await context.current(), id) : null;
    if (found === null) throw new Problem(404, 'no_photo', `There is no photo ${request.params.photo}.`);
    response
      .set({
        'Content-Type': found.type,
        'Content-Security-Policy': "default-src 'none'; sandbox",
        'X-Content-Type-Options': 'nosniff',
        'Content-Disposition': `inline; filename="photo-${id}.${endings[found.type]}"`,
        'Cache-Control': 'private, no-cache',
      })
      .send(found.content);
  });
}
