import type { z } from 'zod';
import type { endpoints, EndpointName } from '../models/schema/endpoints.ts';
import { offlineNames } from './offline/names.ts';
import { noteConnection } from './parts/connection.ts';
import { notePending } from './parts/pendingWrites.ts';

type Table = typeof endpoints;
export type Answer<N extends EndpointName> = z.infer<Table[N]['response']>;

/** What went wrong, in a sentence for people; `status` 0 = the server did not answer. */
export class RequestError extends Error {
  readonly status: number;
  readonly code: string;
  /** what was refused, by field */
  readonly fields: readonly { field: string; message: string }[];
  /** files that can't be read, each with why */
  readonly refused: readonly { file: string; message: string }[];

  constructor(
    status: number,
    code: string,
    message: string,
    fields: readonly { field: string; message: string }[] = [],
    refused: readonly { file: string; message: string }[] = [],
  ) {
    super(message);
    this.fields = fields;
    this.refused = refused;
    this.status = status;
    this.code = code;
  }
}

/** What to do about an answer that gives no reason, such as that of a gateway in front of the server. */
function statusWords(status: number): string {
  if (status === 401 || status === 403)
    return 'The server no longer knows who you are. Sign in again in another window, then try again here.';
  if (status >= 502 && status <= 504)
    return 'The server is not to be reached just now. Wait a minute, then try again.';
  return `The server answered with ${status}. Try again; if that stays, look at its log.`;
}

/** What a request fails with that nobody answers. */
export const noAnswer = (): RequestError =>
  new RequestError(
    0,
    'no_answer',
    'The server does not answer. Check that Sumpwise is still running on this computer, then try again.',
  );

/** What a request fails with that is answered by a status of 400 or more. */
export function refusal(status: number, body: unknown): RequestError {
  const problem = (body ?? {}) as {
    code?: string;
    detail?: string;
    fields?: { field: string; message: string }[];
    refused?: { file: string; message: string }[];
  };
  return new RequestError(
    status,
    problem.code ?? 'fault',
    problem.detail ?? statusWords(status),
    problem.fields,
    problem.refused,
  );
}

const formers = new WeakMap<object, string>();

/** When an answer was made whose successor is in work, ISO; null: it is of the records as they are. */
export function formerOf(answer: object): string | null {
  return formers.get(answer) ?? null;
}

async function send<T>(path: string, init: RequestInit): Promise<T> {
  let response: Response;
  try {
    response = await fetch(path, init);
  } catch {
    // a write that fails alone says little: the next read tells whether the server is there
    if (init.method === undefined) noteConnection('gone');
    throw noAnswer();
  }
  const keptAt = response.headers.get(offlineNames.keptAtHeader);
  noteConnection(keptAt === null ? 'here' : { keptAt });
  const body: unknown = await response.json().catch(() => null);
  if (!response.ok) {
    throw refusal(response.status, body);
  }
  const madeAt = response.headers.get(offlineNames.formerHeader);
  if (madeAt !== null && typeof body === 'object' && body !== null) formers.set(body, madeAt);
  return body as T;
}

function withQuery(path: string, query: Record<string, string | number | undefined>): string {
  const words = Object.entries(query).filter(([, value]) => value !== undefined && value !== '');
  if (words.length === 0) return path;
  return `${path}?${new URLSearchParams(words.map(([name, value]) => [name, String(value)])).toString()}`;
}

/** Reads an endpoint. */
export function read<N extends EndpointName>(
  path: string,
  query: Record<string, string | number | undefined> = {},
): Promise<Answer<N>> {
  return send<Answer<N>>(withQuery(path, query), { headers: { accept: 'application/json' } });
}

/** Writes to an endpoint; the key makes a repeated send harmless. */
export async function write<N extends EndpointName>(
  path: string,
  body: unknown,
  method = 'POST',
  key: string = crypto.randomUUID(),
): Promise<Answer<N>> {
  const settle = notePending(path);
  try {
    return await send<Answer<N>>(path, {
      method,
      headers: { 'content-type': 'application/json', 'Idempotency-Key': key },
      body: JSON.stringify(body),
    });
  } finally {
    settle();
  }
}

/** Sends bytes, such as a picture, to an endpoint. */
export function writeBytes<N extends EndpointName>(
  path: string,
  query: Record<string, string>,
  bytes: Blob,
): Promise<Answer<N>> {
  return send<Answer<N>>(withQuery(path, query), {
    method: 'POST',
    headers: { 'content-type': 'application/octet-stream' },
    body: bytes,
  });
}
