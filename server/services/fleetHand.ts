import {
  beginPass,
  passLines,
  passOutlook,
  taughtBy,
  type FleetPass,
  type PassOutlook,
} from '../../models/assessment/fleetPass.ts';
import type { Models } from '../../models/assessment/models.ts';
import type { UnitLines } from '../../models/assessment/unitLines.ts';
import type { LearnedRates } from '../../models/wear/learnedRates.ts';
import type { Store } from '../store/openStore.ts';
import { fleetOn, type Question } from './fleetQuestion.ts';

/** What a second thread is told of a pass over a fleet: first what is asked, then what the wear of the fleet taught. */
export type HandAsk =
  | { readonly storeFile: string; readonly revision: number; readonly question: Question }
  | { readonly rates: LearnedRates | null };

/** What it tells: first the outlook, then the lines of its share of the units. */
export type HandTold =
  { readonly outlook: PassOutlook } | { readonly lines: readonly UnitLines[] } | { readonly failed: string };

/** Records changed while a pass began; it is begun anew. */
export class RecordsChanged extends Error {}

/** The units of the second thread: every other one. */
export const ofHand = (place: number): boolean => place % 2 === 1;

/**
 * Begins a pass from the records of one revision.
 * @throws RecordsChanged when the store is at another by now
 */
export function beginAt(store: Store, revision: number, question: Question, models: Models): FleetPass {
  const fleet = store.sqlite.transaction(() => {
    const now = store.sqlite.prepare('SELECT number FROM revision').pluck().get() as number;
    if (now !== revision) throw new RecordsChanged(`the records are at revision ${now}, not ${revision}`);
    return fleetOn(store, question);
  })();
  return beginPass(fleet, models);
}

/** The second thread's part of one pass. */
export class FleetHand {
  private readonly models: Models;
  private readonly tell: (told: HandTold) => void;
  private begun: { pass: FleetPass; outlook: PassOutlook; horizon: number } | null = null;

  constructor(models: Models, tell: (told: HandTold) => void) {
    this.models = models;
    this.tell = tell;
  }

  begin(store: Store, revision: number, question: Question): void {
    const pass = beginAt(store, revision, question, this.models);
    const outlook = passOutlook(pass, this.models, question.horizon);
    this.begun = { pass, outlook, horizon: question.horizon };
    this.tell({ outlook });
  }

  finish(rates: LearnedRates | null): void {
    if (this.begun === null) throw new Error('a pass must be begun before its lines are made');
    const { pass, outlook, horizon } = this.begun;
    this.begun = null;
    const taught = taughtBy(pass, rates, outlook, horizon);
    this.tell({ lines: passLines(pass, taught, this.models, ofHand) });
  }
}
