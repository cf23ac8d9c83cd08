import type { FitSummary } from './fitSummary.ts';
import type { Ranged } from './fleetFit.ts';

/** One thing that moved between two fits, with the reason as far as the fits tell. */
export interface FitChange {
  readonly what: string;
  readonly before: number;
  readonly after: number;
  readonly why: string;
}

/**
 * What changed from one fit to the next and why: records first (they are the cause), then what was learned from them, as far as it moved by more than a
 * quarter of its 80 % range.
 * @returns empty when the versions are the same
 */
export function fitChanges(before: FitSummary, after: FitSummary): readonly FitChange[] {
  if (before.version === after.version) return [];
  const changes: FitChange[] = [];
  const note = (what: string, from: number, to: number, why: string) => {
    if (from !== to) changes.push({ what, before: from, after: to, why });
  };
  note(
    'timing sets in the records',
    before.episodes,
    after.episodes,
    'sets were installed, or records came in or were taken back',
  );
  note('failures', before.failures, after.failures, 'failures were recorded, corrected, or judged anew');
  note(
    'days under observation',
    before.exposureDays,
    after.exposureDays,
    'units ran on, or records came in or were taken back',
  );
  const cause =
    changes.length > 0
      ? 'learned from the records that changed'
      : 'other records, priors or coefficients changed';
  const moved = (what: string, from: Ranged, to: Ranged) => {
    const width = Math.max(from.high - from.low, to.high - to.low);
    if (Math.abs(to.value - from.value) > width / 4) note(what, from.value, to.value, cause);
  };
  moved('how steeply the risk grows with age (shape)', before.shape, after.shape);
  if (before.life.unit === after.life.unit)
    moved(`age by which 63 of 100 sets have failed (${after.life.unit})`, before.life, after.life);
  for (const scale of after.familyScales) {
    const old = before.familyScales.find(({ family }) => family === scale.family);
    if (old) moved(`life of ${scale.family} against the others`, old.lifeFactor, scale.lifeFactor);
  }
  for (const { name, effect } of after.effects) {
    const old = before.effects.find((one) => one.name === name);
    if (old) moved(`effect of ${name}`, old.effect, effect);
  }
  for (const structure of after.structures) {
    const old = before.structures.find(({ clock }) => clock.name === structure.clock.name);
    const from = old?.weight ?? 0;
    if (Math.abs(from - structure.weight) > 0.1)
      note(
        `share that counts age by ${structure.clock.name}`,
        from,
        structure.weight,
        'it predicts left-out sets better or worse than it did',
      );
  }
  return changes;
}
