import { isBusy } from '../store/openStore.ts';
import type { ErrorRequestHandler, Response } from 'express';

/** An expected refusal: status, stable code, and a sentence that says what to do. */
export class Problem extends Error {
  readonly status: number;
  readonly code: string;
  readonly details: Readonly<Record<string, unknown>>;

  constructor(
    status: number,
    code: string,
    message: string,
    details: Readonly<Record<string, unknown>> = {},
  ) {
    super(message);
    this.status = status;
    this.code = code;
    this.details = details;
  }
}

/** Answers with a problem document (RFC 9457). */
export function sendProblem(response: Response, problem: Problem): void {
  response
    .status(problem.status)
    .type('application/problem+json')
    .send(
      JSON.stringify({
        type: `about:blank#${problem.code}`,
        title: problem.code.replaceAll('_', ' '),
        status: problem.status,
        detail: problem.message,
        code: problem.code,
        ...problem.details,
      }),
    );
}

/**
 * The last handler: refusals as they are, anything else as a 500 with a number that stands in the log.
 * @param log writes one line
 */
export function problemHandler(log: (line: string) => void): ErrorRequestHandler {
  return (error: unknown, request, response, next) => {
    if (response.headersSent) {
      next(error);
      return;
    }
    if (error instanceof Problem) {
      sendProblem(response, error);
      return;
    }
    const status = (error as { status?: number }).status;
    if (status !== undefined && status >= 400 && status < 500) {
      sendProblem(response, new Problem(status, 'bad_request', (error as Error).message));
      return;
    }
    if (isBusy(error)) {
      sendProblem(
        response,
        new Problem(
          503,
          'busy',
          'Another program is writing the records. Nothing of this change was kept: try again when it is done.',
        ),
      );
      return;
    }
    const number = `E${Date.now().toString(36)}`;
    log(`${number} ${request.method} ${request.path} ${(error as Error).stack ?? String(error)}`);
    sendProblem(
      response,
      new Problem(500, 'fault', `Something in the program failed. Its number in the log is ${number}.`, {
        number,
      }),
    );
  };
}

/** A page or a write that names a unit which is not in service. */
export const noUnitInService = (unitNumber: string): Problem =>
  new Problem(404, 'no_unit', `There is no unit ${unitNumber} in service on that day.`);
