import type { Express } from 'express';
import type { Context } from '../context.ts';
import { keepUpload, maxUploadBytes } from '../files/uploads.ts';
import { profileUpload } from '../services/profileUpload.ts';
import { serveEndpoint } from './endpoint.ts';
import { badName } from './badName.ts';
import { Problem } from './problem.ts';

/** Files on their way to an intake: the body goes straight to disk, never into memory whole. */
export function uploadRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'upload', async ({ query, request }) => {
    const kept = await keepUpload(context.paths.uploads, query.name, request);
    if (kept === 'bad_name') throw badName(query.name);
    if (kept === 'too_large')
      throw new Problem(
        413,
        'too_large',
        `${query.name} is larger than ${Math.round(maxUploadBytes / 1e6)} MB. Split it, or use "sumpwise intake" on the command line.`,
      );
    if (kept.bytes === 0)
      throw new Problem(422, 'empty', `${query.name} is empty. Export it again and check that it has rows.`);
    return kept;
  });
  serveEndpoint(app, 'profile', async ({ params }) => profileUpload(context, params.upload));
}
