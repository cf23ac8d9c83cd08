import { z } from 'zod';
import { endpoints, type Endpoint } from '../../models/schema/endpoints.ts';
import { directIntakeOptions } from '../../models/schema/intakeEndpoints.ts';
import { version } from '../config.ts';
import { maxFormBytes } from './directIntake.ts';

const jsonSchema = (schema: z.ZodType, io: 'input' | 'output'): unknown => {
  const made = z.toJSONSchema(schema, { io, unrepresentable: 'any' }) as Record<string, unknown>;
  delete made.$schema;
  return made;
};

const problem = {
  description: 'The request was not taken; the document says why (RFC 9457)',
  content: {
    'application/problem+json': {
      schema: {
        type: 'object',
        properties: {
          type: { type: 'string' },
          title: { type: 'string' },
          status: { type: 'integer' },
          detail: { type: 'string' },
          code: { type: 'string' },
        },
        required: ['type', 'title', 'status', 'detail', 'code'],
      },
    },
  },
};

/** An intake also takes the files themselves. */
const directForms = {
  'multipart/form-data': {
    schema: {
      type: 'object',
      description: `one or more files, together up to ${maxFormBytes / 1e6} MB; the options as fields or in the query`,
      properties: { file: { type: 'array', items: { type: 'string', format: 'binary' } } },
      required: ['file'],
    },
  },
  'application/octet-stream': {
    schema: {
      type: 'string',
      format: 'binary',
      description: 'one file; its name and the options in the query',
    },
  },
};

function operation(name: string, entry: Endpoint): Record<string, unknown> {
  const parameters: unknown[] = [...entry.path.matchAll(/:(\w+)/g)].map(([, parameter]) => ({
    name: parameter,
    in: 'path',
    required: true,
    schema: { type: 'string' },
  }));
  const query = name === 'intake' ? directIntakeOptions.shape : (entry.query?.shape ?? {});
  for (const [parameter, schema] of Object.entries(query))
    parameters.push({
      name: parameter,
      in: 'query',
      required: !(schema as z.ZodType).safeParse(undefined).success,
      schema: jsonSchema(schema as z.ZodType, 'input'),
    });
  if (entry.method !== 'get')
    parameters.push({
      name: 'Idempotency-Key',
      in: 'header',
      required: false,
      description: 'the same key again gets the first answer again; nothing is done twice',
      schema: { type: 'string', maxLength: 200 },
    });
  const upload = name === 'upload';
  return {
    operationId: name,
    summary: entry.summary,
    parameters,
    ...(entry.body !== undefined && {
      requestBody: {
        required: true,
        content: {
          'application/json': { schema: jsonSchema(entry.body, 'input') },
          ...(name === 'intake' && directForms),
        },
      },
    }),
    ...(upload && {
      requestBody: {
        required: true,
        content: { 'application/octet-stream': { schema: { type: 'string', format: 'binary' } } },
      },
    }),
    responses: {
      '200': {
        description: entry.summary,
        content: { 'application/json': { schema: jsonSchema(entry.response, 'output') } },
      },
      default: problem,
    },
  };
}

/** The OpenAPI 3.1 document of every endpoint, made from the schemas that check the requests. */
export function openApiDocument(): Record<string, unknown> {
  const paths: Record<string, Record<string, unknown>> = {};
  for (const [name, entry] of Object.entries(endpoints)) {
    const path = entry.path.replace(/:(\w+)/g, '{$1}');
    paths[path] = { ...paths[path], [entry.method]: operation(name, entry) };
  }
  return {
    openapi: '3.1.0',
    info: { title: 'Sumpwise', version, description: 'Fleet oil and wear: intake, estimates, records' },
    paths,
  };
}
