import type { Express, Request, Response } from 'express';
import type { z } from 'zod';
import { endpoints, type EndpointName } from '../../models/schema/endpoints.ts';
import type { Context } from '../context.ts';
import type { FleetAsk } from '../fleetAsk.ts';
import { askFleet } from '../services/askFleet.ts';
import { Problem } from './problem.ts';

type Entry<N extends EndpointName> = (typeof endpoints)[N];
type QueryOf<N extends EndpointName> =
  Entry<N> extends { query: infer Q extends z.ZodType } ? z.infer<Q> : undefined;
type BodyOf<N extends EndpointName> =
  Entry<N> extends { body: infer B extends z.ZodType } ? z.infer<B> : undefined;

export interface Call<N extends EndpointName> {
  readonly params: Readonly<Record<string, string>>;
  readonly query: QueryOf<N>;
  readonly body: BodyOf<N>;
  readonly request: Request;
}

function parse(schema: z.ZodType, value: unknown, where: string): unknown {
  const parsed = schema.safeParse(value);
  if (parsed.success) return parsed.data;
  const fields = parsed.error.issues.map((issue) => ({
    field: [where, ...issue.path.map(String)].join('.'),
    message: issue.message,
  }));
  throw new Problem(
    400,
    'bad_request',
    fields.map((field) => `${field.field}: ${field.message}`).join('; '),
    { fields },
  );
}

type Work<N extends EndpointName, T> = (call: Call<N>, response: Response) => Promise<T>;

/** Checks query and body of one endpoint of the table by their schemas, and answers what `send` makes of the work. */
function serve<N extends EndpointName, T>(
  app: Express,
  name: N,
  work: Work<N, T>,
  send: (response: Response, answer: T) => void,
): void {
  const entry = endpoints[name] as {
    method: 'get' | 'post' | 'put';
    path: string;
    query?: z.ZodType;
    body?: z.ZodType;
  };
  app[entry.method](entry.path, async (request: Request, response: Response) => {
    const query = entry.query === undefined ? undefined : parse(entry.query, request.query, 'query');
    const body = entry.body === undefined ? undefined : parse(entry.body, request.body ?? {}, 'body');
    const answer = await work(
      {
        params: request.params as Record<string, string>,
        query: query as QueryOf<N>,
        body: body as BodyOf<N>,
        request,
      },
      response,
    );
    send(response, answer);
  });
}

/** Serves one endpoint of the table: checks query and body by their schemas, answers what the work returns as JSON. */
export function serveEndpoint<N extends EndpointName>(
  app: Express,
  name: N,
  work: Work<N, z.input<Entry<N>['response']>>,
): void {
  serve(app, name, work, (response, answer) => response.json(answer));
}

/** Says that an answer is of records before the last change, whose own answer is in work: since when it holds. */
export function markFormer(response: Response, formerOf: string | null): void {
  if (formerOf !== null) response.set('Former-Answer-Of', formerOf);
}

/** Serves one endpoint that asks something of the whole fleet; the answer is JSON text that is sent as it is kept. */
export function serveFleet<N extends EndpointName>(
  app: Express,
  context: Context,
  name: N,
  ask: (call: Call<N>) => FleetAsk | Promise<FleetAsk>,
): void {
  serve(
    app,
    name,
    async (call) => askFleet(context, await context.current(), await ask(call)),
    (response, { text, formerOf }) => {
      markFormer(response, formerOf);
      response.type('json').send(text);
    },
  );
}
