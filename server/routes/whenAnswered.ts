import type { Response } from 'express';

/**
 * Does something once, when a request is answered. A client that goes away ends its connection and not the work: that is
 * done when it answers, though nobody hears it.
 */
export function whenAnswered(response: Response, done: () => void): void {
  let isDone = false;
  const once = (): void => {
    if (!isDone) done();
    isDone = true;
  };
  const end = response.end.bind(response) as (...given: unknown[]) => Response;
  response.end = ((...given: unknown[]) => {
    try {
      return end(...given);
    } finally {
      once();
    }
  }) as Response['end'];
  // an answer that broke off after it had begun has no end of its own
  response.on('close', () => {
    if (response.headersSent) once();
  });
}
