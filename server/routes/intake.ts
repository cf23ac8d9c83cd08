import type { Express } from 'express';
import type { Context } from '../context.ts';
import { findUpload } from '../files/uploads.ts';
import type { IntakeReport } from '../../models/schema/intake.ts';
import { IntakeCancelled } from '../services/intake/intakeProgress.ts';
import type { NamedFile } from '../services/intake/openFiles.ts';
import { takeIn, type TakeInOptions } from '../services/takeIn.ts';
import { listBatches } from '../store/batches.ts';
import { NameTaken } from '../store/columnMaps.ts';
import { undoBatch } from '../store/undoBatch.ts';
import { verifyStore } from '../store/verify.ts';
import { serveEndpoint } from './endpoint.ts';
import { IntakeJobs } from './intakeJobs.ts';
import { Problem } from './problem.ts';

type Given = Omit<TakeInOptions, 'by' | 'today'>;

/**
 * Takes files in for a request. Own records are never mixed into the demo: the first intake makes their store, a dry run
 * looks into an empty one.
 * @throws Problem when a file is refused, a name is taken, or the intake was called off
 */
export async function takeForRequest(
  context: Context,
  files: readonly NamedFile[],
  options: Given,
): Promise<IntakeReport> {
  const target = options.dryRun && context.currentKind() === 'demo' ? ':memory:' : (await context.own()).file;
  const report = await takeIn(target, files, { ...options, by: 'web', today: context.today() }).catch(
    (error: unknown) => {
      if (error instanceof NameTaken) throw new Problem(409, 'name_taken', error.message);
      if (error instanceof IntakeCancelled) throw new Problem(409, 'cancelled', error.message);
      throw error;
    },
  );
  const [first] = report.refused ?? [];
  if (first !== undefined)
    throw new Problem(422, first.code, `${first.file}: ${first.message}`, { refused: report.refused });
  return report;
}

/** Bringing records in, looking back at it, and taking it back. */
export function intakeRoutes(app: Express, context: Context): void {
  const jobs = new IntakeJobs();
  jobs.serve(app);
  serveEndpoint(app, 'intake', async ({ body }) => {
    const { uploads, job: name, ...options } = body;
    const files = await Promise.all(
      uploads.map(async (id) => {
        const upload = await findUpload(context.paths.uploads, id);
        if (upload === null)
          throw new Problem(404, 'no_upload', 'An upload is not here any more. Choose the files again.');
        return upload;
      }),
    );
    const { end, ...job } = jobs.begin(name);
    try {
      return await takeForRequest(context, files, { ...options, ...job });
    } finally {
      end();
    }
  });
  serveEndpoint(app, 'batches', async ({ query }) =>
    listBatches(
      await context.current(),
      query.cursor === undefined ? null : Number(query.cursor),
      query.limit ?? 50,
    ),
  );
  serveEndpoint(app, 'undo', async ({ params }) => {
    const result = undoBatch(await context.current(), params.batch, context.now());
    if ('refused' in result) throw new Problem(409, 'cannot_undo', result.refused);
    return result;
  });
  serveEndpoint(app, 'verify', async () => verifyStore(await context.current()));
}
