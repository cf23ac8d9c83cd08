import { Readable } from 'node:stream';
import type { Express, Request, RequestHandler, Response } from 'express';
import { directIntakeOptions } from '../../models/schema/intakeEndpoints.ts';
import type { Context } from '../context.ts';
import { findUpload, keepUpload, maxUploadBytes, removeUpload } from '../files/uploads.ts';
import type { NamedFile } from '../services/intake/openFiles.ts';
import { badName } from './badName.ts';
import { takeForRequest } from './intake.ts';
import { Problem } from './problem.ts';

/** A form is held in memory while it is taken apart; larger files come as the body itself. */
export const maxFormBytes = 50_000_000;

async function keep(context: Context, name: string, body: Readable): Promise<NamedFile> {
  const { uploads } = context.paths;
  const kept = await keepUpload(uploads, name, body);
  if (kept === 'bad_name') throw badName(name);
  if (kept === 'too_large')
    throw new Problem(413, 'too_large', `${name} is larger than ${maxUploadBytes / 1e6} MB. Split it.`);
  const found = await findUpload(uploads, kept.upload);
  if (found === null) throw new Problem(500, 'no_upload', 'The file could not be kept. Send it again.');
  if (kept.bytes > 0) return found;
  await removeUpload(found.path);
  throw new Problem(422, 'empty', `${name} is empty: a file with rows is needed.`);
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
export function directIntakeRoutes(app: Express, context: Context, before: readonly RequestHandler[]): void {
  const isDirect: RequestHandler = (request, _response, next) =>
    next(request.is('application/json') === false ? undefined : 'route');
  app.post('/api/intake', isDirect, ...before, async (request: Request, response: Response) => {
    const isForm = request.is('multipart/form-data') !== false;
    const { files, words } = isForm ? await formParts(request) : { files: [], words: {} };
    const read = directIntakeOptions.safeParse({ ...request.query, ...words });
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
    const named: NamedFile[] = [];
    try {
      if (!isForm) named.push(await keep(context, name ?? '', request));
      for (const file of files)
        named.push(
          await keep(
            context,
            file.name,
            Readable.fromWeb(file.stream() as Parameters<typeof Readable.fromWeb>[0]),
          ),
        );
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
