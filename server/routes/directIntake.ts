import { Readable } from 'node:stream';
import type { Express, Request, RequestHandler, Response } from 'express';
import { z } from 'zod';
import { intakeOptions } from '../../models/schema/intake.ts';
import type { Context } from '../context.ts';
import { findUpload, keepUpload, maxUploadBytes, removeUpload, type Upload } from '../files/uploads.ts';
import { takeForRequest } from './intake.ts';
import { Problem } from './problem.ts';

/** A form is held in memory while it is taken apart; larger files come as the body itself. */
const maxFormBytes = 50_000_000;

const yes = z.enum(['true', 'false']).transform((text) => text === 'true');
const told = intakeOptions.extend({
  dryRun: yes.default(false),
  name: z.string().min(1).max(255).optional(),
});

async function keep(context: Context, name: string, body: Readable): Promise<Upload> {
  const kept = await keepUpload(context.paths.uploads, name, body);
  if (kept === 'too_large')
    throw new Problem(413, 'too_large', `${name} is larger than ${maxUploadBytes / 1e6} MB. Split it.`);
  if (kept.bytes === 0) {
    const found = await findUpload(context.paths.uploads, kept.upload);
    if (found !== null) await removeUpload(found.path);
    throw new Problem(422, 'empty', `${name} is empty: a file with rows is needed.`);
  }
  return kept;
}

/** The files and words of a multipart form. */
async function formParts(request: Request): Promise<{ files: File[]; words: Record<string, string> }> {
  const length = Number(request.headers['content-length'] ?? Number.NaN);
  if (!(length <= maxFormBytes))
    throw new Problem(
      413,
      'too_large',
      `A form of up to ${maxFormBytes / 1e6} MB with its Content-Length is taken; send a larger file as the body, with ?name=.`,
    );
  const form = await new globalThis.Response(Readable.toWeb(request) as ReadableStream, {
    headers: { 'content-type': request.headers['content-type'] ?? '' },
  })
    .formData()
    .catch(() => {
      throw new Problem(400, 'bad_request', 'The form could not be taken apart: check its boundary.');
    });
  const files: File[] = [];
  const words: Record<string, string> = {};
  form.forEach((value, name) => {
    if (typeof value === 'string') words[name] = value;
    else files.push(value);
  });
  return { files, words };
}

/**
 * Takes a file in one request, by the same rules as any intake: the body itself with `?name=`, or a form of one or
 * more files. A question left open refuses it, with what answers it.
 */
export function directIntakeRoutes(app: Express, context: Context, once: RequestHandler): void {
  const isDirect: RequestHandler = (request, _response, next) =>
    next(request.is('application/json') === false ? undefined : 'route');
  app.post('/api/intake', isDirect, once, async (request: Request, response: Response) => {
    const isForm = request.is('multipart/form-data') !== false;
    const { files, words } = isForm ? await formParts(request) : { files: [], words: {} };
    const read = told.safeParse({ ...request.query, ...words });
    if (!read.success)
      throw new Problem(
        400,
        'bad_request',
        read.error.issues.map(({ path, message }) => `${path.join('.')}: ${message}`).join('; '),
      );
    const { name, ...options } = read.data;
    if (!isForm && name === undefined)
      throw new Problem(400, 'bad_request', 'name: the name of the file is needed, as ?name=service.csv');
    if (isForm && files.length === 0)
      throw new Problem(400, 'bad_request', 'file: a form with at least one file is needed');
    const kept = isForm
      ? await Promise.all(
          files.map((file) =>
            keep(
              context,
              file.name,
              Readable.fromWeb(file.stream() as Parameters<typeof Readable.fromWeb>[0]),
            ),
          ),
        )
      : [await keep(context, name ?? '', request)];
    const named = await Promise.all(
      kept.map(async ({ upload }) => {
        const found = await findUpload(context.paths.uploads, upload);
        if (found === null) throw new Problem(500, 'no_upload', 'The file could not be kept. Send it again.');
        return found;
      }),
    );
    try {
      const report = await takeForRequest(context, named, options);
      const [question] = report.questions;
      if (question !== undefined)
        throw new Problem(
          422,
          question.code,
          `${question.file}: ${question.question} Nothing was taken in.`,
          { questions: report.questions, files: report.files },
        );
      response.json(report);
    } finally {
      await Promise.all(named.map(({ path }) => removeUpload(path)));
    }
  });
}
