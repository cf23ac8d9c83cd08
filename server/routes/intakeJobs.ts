import type { Express } from 'express';
import type { IntakeProgress } from '../services/intake/intakeProgress.ts';
import { serveEndpoint } from './endpoint.ts';

interface Job {
  at: IntakeProgress;
  readonly stop: AbortController;
}

const notBegun: IntakeProgress = { file: '', rows: 0, share: 0 };

/** Intakes that are being worked on, by the name their page gave them. */
export class IntakeJobs {
  private readonly running = new Map<string, Job>();

  /** What takes part in the work of an intake; `end` when it is over. */
  begin(name: string | undefined): {
    progress?: (at: IntakeProgress) => void;
    signal?: AbortSignal;
    end: () => void;
  } {
    if (name === undefined) return { end: () => undefined };
    const job: Job = { at: notBegun, stop: new AbortController() };
    this.running.set(name, job);
    return {
      progress: (at) => {
        job.at = at;
      },
      signal: job.stop.signal,
      end: () => this.running.delete(name),
    };
  }

  /** Says how far jobs are and calls them off. */
  serve(app: Express): void {
    serveEndpoint(app, 'intakeJob', async ({ params }) => {
      const job = this.running.get(params.job);
      return { running: job !== undefined, ...(job?.at ?? notBegun) };
    });
    serveEndpoint(app, 'cancelIntake', async ({ params }) => {
      const job = this.running.get(params.job);
      job?.stop.abort();
      return { cancelled: job !== undefined };
    });
  }
}
