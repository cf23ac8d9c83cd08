import { failureWeight } from '../fleet/episode.ts';
import { gammaQuantile } from '../../numeric/gammaQuantile.ts';
import { countRange, equalParts } from './countRange.ts';
import { plannedDays } from './hindcastTypes.ts';
import type { Forecaster } from './hindcastTypes.ts';

/**
 * Rival: what the sticker says. Failures per day of units past their book interval and of the others, each pulled to the rate of all by one
 * failure's weight; a unit has the rate of the side on which it stands at the origin.
 */
export const pastBookInterval: Forecaster = ({ episodes, atRisk }) => {
  const days = [0, 0];
  const failures = [0, 0];
  for (const episode of episodes) {
    for (const segment of episode.segments) days[segment.pastBook ? 1 : 0] += segment.days;
    failures[episode.segments.at(-1)?.pastBook ? 1 : 0] += failureWeight(episode);
  }
  const overall = (failures[0] + failures[1] + 0.5) / Math.max(1, days[0] + days[1]);
  const shape = failures.map((count) => count + 1);
  const exposure = days.map((count) => count + 1 / overall);
  const sides = atRisk.map(({ episode }) => (episode.segments.at(-1)?.pastBook ? 1 : 0));
  const chancesAt = (rates: readonly number[]) =>
    atRisk.map((unit, i) => -Math.expm1(-rates[sides[i]] * plannedDays(unit)));
  return {
    chances: chancesAt([0, 1].map((side) => shape[side] / exposure[side])),
    ...countRange(
      equalParts.map((part) =>
        chancesAt([0, 1].map((side) => gammaQuantile(shape[side], part) / exposure[side])),
      ),
    ),
  };
};
