import { setImmediate } from 'node:timers/promises';

/** How far an intake is. */
export interface IntakeProgress {
  readonly file: string;
  /** rows of that file read so far */
  readonly rows: number;
  /** of the whole intake, 0..1 */
  readonly share: number;
}

/** An intake that was called off; the store is as it was. */
export class IntakeCancelled extends Error {
  constructor() {
    super('The intake was called off. Nothing was changed.');
  }
}

export interface ProgressOptions {
  readonly progress?: (progress: IntakeProgress) => void;
  readonly signal?: AbortSignal;
}

/** Reading is most of the work; comparing meters over time is the rest. */
const readingShare = 0.85;

/**
 * Tells how far an intake is, lets others have a turn, and stops it when it is called off.
 * @param before share of the tables that are read already, 0..1
 * @param weight share of this table
 */
export async function tell(
  options: ProgressOptions,
  at: { file: string; rows: number; share: number; before: number; weight: number },
): Promise<void> {
  if (options.progress === undefined && options.signal === undefined) return;
  options.progress?.({
    file: at.file,
    rows: at.rows,
    share: readingShare * (at.before + at.weight * Math.min(1, at.share)),
  });
  await setImmediate();
  if (options.signal?.aborted === true) throw new IntakeCancelled();
}
