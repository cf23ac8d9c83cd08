import { quantileSorted } from 'simple-statistics';
import type { CovariateSpec } from './covariateSpec.ts';
import { failureWeight, observedDays } from './episode.ts';
import type { Episode } from './episode.ts';
import type { FamilyScale, FittedStructure, FleetFit, LearnedEffect, Ranged } from './fleetFit.ts';
import type { FleetPriors } from './fleetPriors.ts';
import { familyFrom, fleetScaleAt, shapeAt } from './structurePosterior.ts';

export type Learned = Pick<FleetFit, 'shape' | 'life' | 'familyScales' | 'effects' | 'ownDataShare'>;

/** Median and 80 % range of draws. */
export function rangedOf(values: ArrayLike<number>): Ranged {
  const sorted = Float64Array.from(values).sort();
  const at = (p: number) => quantileSorted(sorted as unknown as number[], p);
  return { value: at(0.5), low: at(0.1), high: at(0.9) };
}

/** What was learned, in terms that people can judge, from the draws of all clocks together (each clock has draws in proportion to its weight). */
export function learnedFrom(
  structures: readonly FittedStructure[],
  families: readonly string[],
  episodes: readonly Episode[],
  covariates: readonly CovariateSpec[],
  priors: FleetPriors,
): Learned {
  const all = structures.flatMap(({ draws, layout }) => draws.map(({ at }) => ({ at, layout })));
  const main = structures.reduce((a, b) => (b.weight > a.weight ? b : a));
  const life = rangedOf(main.draws.map(({ at }) => Math.exp(main.clock.life.mean + at[fleetScaleAt])));
  const exposure = families.map((family) =>
    episodes.reduce((sum, episode) => sum + (episode.family === family ? observedDays(episode) : 0), 0),
  );
  const total = exposure.reduce((a, b) => a + b, 0);
  const middle = (at: Float64Array) =>
    families.reduce((sum, _, g) => sum + at[familyFrom + g], 0) / Math.max(1, families.length);
  const familyScales = families.map((family, g): FamilyScale => ({
    family,
    failures: episodes.reduce((sum, e) => sum + (e.family === family ? failureWeight(e) : 0), 0),
    lifeFactor: rangedOf(all.map(({ at }) => Math.exp(at[familyFrom + g] - middle(at)))),
    ownDataShare: learnedShare(structures, priors, (at) => at[familyFrom + g]),
  }));
  return {
    shape: rangedOf(all.map(({ at }) => Math.exp(at[shapeAt]))),
    life: { ...life, unit: main.clock.unit },
    familyScales,
    effects: effectsOf(structures, covariates, priors),
    ownDataShare:
      total > 0
        ? learnedShare(structures, priors, (at) =>
            exposure.reduce((sum, days, g) => sum + (days / total) * at[familyFrom + g], 0),
          )
        : 0,
  };
}

/** 1 − posterior variance / prior variance of a log scale, over the clocks that have draws enough. */
function learnedShare(
  structures: readonly FittedStructure[],
  priors: FleetPriors,
  value: (at: Float64Array) => number,
): number {
  let share = 0;
  let weight = 0;
  for (const structure of structures) {
    if (structure.draws.length < 20) continue;
    const values = structure.draws.map(({ at }) => value(at));
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    const variance = values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length;
    const prior = structure.clock.life.sd ** 2 + Math.exp(2 * priors.familySpread.mean);
    share += structure.weight * Math.min(Math.max(1 - variance / prior, 0), 1);
    weight += structure.weight;
  }
  return weight > 0 ? share / weight : 0;
}

function effectsOf(
  structures: readonly FittedStructure[],
  covariates: readonly CovariateSpec[],
  priors: FleetPriors,
): LearnedEffect[] {
  const drawsOf = (kind: CovariateSpec['kind'], position: number) =>
    structures.flatMap(({ draws, layout, clock }) => {
      if (kind === 'clock' && !clock.withCovariates) return [];
      const place = (kind === 'clock' ? layout.clockFrom : layout.evidenceFrom) + position;
      return draws.map(({ at }) => at[place]);
    });
  const seen = { clock: 0, evidence: 0 };
  const effects = covariates.flatMap(({ name, kind, priorMean, priorSd }): LearnedEffect[] => {
    const draws = drawsOf(kind, seen[kind]++);
    return draws.length > 0 ? [{ name, kind, effect: rangedOf(draws), priorMean, priorSd }] : [];
  });
  const idle = structures.flatMap(({ draws, layout: { idleAt } }) =>
    idleAt === null ? [] : draws.map(({ at }) => at[idleAt]),
  );
  if (idle.length > 0)
    effects.push({
      name: 'idle hour against a driving hour',
      kind: 'clock',
      effect: rangedOf(idle),
      priorMean: priors.idleWeight.mean,
      priorSd: priors.idleWeight.sd,
    });
  return effects;
}
