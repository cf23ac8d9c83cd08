import { join } from 'node:path';
import type { IntakeReport } from '../../models/schema/intake.ts';
import { namesWatched, prepareWatched, putAside, writingMark } from '../files/watchedFiles.ts';
import { takeIn } from './takeIn.ts';

export interface WatchOptions {
  readonly folder: string;
  /** path of the store; asked for each file, since the first intake makes it */
  readonly storeFile: () => Promise<string>;
  readonly today: () => string;
  /** what a corrected version of an earlier file does; left out: it is refused with its differences */
  readonly corrected?: 'replace' | 'add';
  /** waits until the store can be had for an intake, and keeps it until that is done */
  readonly during: <T>(work: () => Promise<T>) => Promise<T>;
  /** writes one line */
  readonly say: (line: string) => void;
  /** how often the folder is looked at */
  readonly everyMs?: number;
  /** how long a file must have stayed the same before it counts as written to its end */
  readonly settledMs?: number;
}

interface Seen {
  readonly mark: string;
  readonly since: number;
}

/**
 * Takes in whatever is laid into a folder, one batch a file. What was taken in goes to `done` with the report beside it,
 * what was refused to `refused` with the reason. A file is moved only after its batch is in the store: after a crash it
 * is read again, and the same rows add nothing.
 */
export class WatchFolder {
  private readonly options: WatchOptions;
  private readonly seen = new Map<string, Seen>();
  private timer: NodeJS.Timeout | null = null;
  private turn: Promise<void> = Promise.resolve();
  private isClosed = false;

  constructor(options: WatchOptions) {
    this.options = options;
  }

  /** Begins to look. Throws when the folder cannot be read or written. */
  async open(): Promise<void> {
    await prepareWatched(this.options.folder);
    this.next();
  }

  /** Stops looking, after the file that is being taken in. */
  async close(): Promise<void> {
    this.isClosed = true;
    if (this.timer !== null) clearTimeout(this.timer);
    await this.turn;
  }

  private next(): void {
    if (this.isClosed) return;
    this.timer = setTimeout(() => {
      this.turn = this.look()
        .catch((error: unknown) => this.options.say(`watched folder: ${String(error)}`))
        .finally(() => this.next());
    }, this.options.everyMs ?? 2000);
    this.timer.unref();
  }

  private async look(): Promise<void> {
    const names = await namesWatched(this.options.folder);
    for (const name of [...this.seen.keys()]) if (!names.includes(name)) this.seen.delete(name);
    for (const name of names) if (!this.isClosed && (await this.isSettled(name))) await this.take(name);
  }

  private async isSettled(name: string): Promise<boolean> {
    const mark = await writingMark(this.options.folder, name);
    if (mark === null) return false;
    const before = this.seen.get(name);
    if (before === undefined || before.mark !== mark) {
      this.seen.set(name, { mark, since: Date.now() });
      return false;
    }
    return Date.now() - before.since >= (this.options.settledMs ?? 5000);
  }

  /** The answer given beforehand is for files that would be asked about, not for every file of a name seen before. */
  private async read(name: string, path: string): Promise<IntakeReport> {
    const { storeFile, today, corrected } = this.options;
    const how = { dryRun: false, by: 'watched folder', today: today() };
    const report = await takeIn(await storeFile(), [{ name, path }], how);
    const isAsked =
      report.questions.length > 0 && report.questions.every(({ code }) => code === 'corrected_file');
    return isAsked && corrected !== undefined
      ? takeIn(await storeFile(), [{ name, path }], { ...how, corrected })
      : report;
  }

  private async take(name: string): Promise<void> {
    const path = join(this.options.folder, name);
    let report: IntakeReport;
    try {
      report = await this.options.during(() => this.read(name, path));
    } catch (error) {
      // Not the file's fault: it stays, and is tried again once it has settled anew.
      this.seen.delete(name);
      this.options.say(`watched folder: ${name} could not be taken in now: ${String(error)}`);
      return;
    }
    const why = reasonOf(report);
    // A file that can't be moved is left alone until it changes, not taken in over and over.
    const seen = this.seen.get(name);
    if (seen !== undefined) this.seen.set(name, { ...seen, since: Infinity });
    await putAside(
      this.options.folder,
      name,
      why === null ? 'done' : 'refused',
      why === null
        ? { ending: '.report.json', text: `${JSON.stringify(report, null, 2)}\n` }
        : { ending: '.reason.txt', text: `${why}\n` },
    );
    this.seen.delete(name);
    this.options.say(`watched folder: ${name} ${why === null ? summary(report) : `refused: ${why}`}`);
  }
}

function reasonOf(report: IntakeReport): string | null {
  const [refused] = report.refused ?? [];
  if (refused !== undefined) return `${refused.file}: ${refused.message}`;
  const [question] = report.questions;
  return question === undefined
    ? null
    : `${question.file}: ${question.question} Take it in on the Intake page, or with "sumpwise intake" and ${question.answerWith}`;
}

function summary({ batch, files }: IntakeReport): string {
  const sum = (pick: (file: IntakeReport['files'][number]) => number): number =>
    files.reduce((total, file) => total + pick(file), 0);
  return `taken in as batch ${batch}: ${sum((f) => f.accepted)} accepted, ${sum((f) => f.duplicates)} there already, ${sum((f) => f.held)} held, ${sum((f) => f.rejected)} left out`;
}
