import type { OilCharge } from '../oil/charge.ts';
import { partOfExposure } from '../oil/condition.ts';
import { latent, latentCount } from './latents.ts';
import { responseOf } from './response.ts';
import type { Segment } from './segments.ts';
import type { StateCause, WearPoint } from './states.ts';
import { emptyTrajectory, trajectoryInto } from './trajectory.ts';
import type { UnitAnalysis } from './unitAnalysis.ts';

/** One life of the unit as it might have been. */
interface Scenario {
  readonly segments: readonly Segment[];
  readonly charges: readonly OilCharge[];
  readonly unknowns: Float64Array;
}

interface Removal {
  readonly cause: string;
  readonly without: (life: Scenario, analysis: UnitAnalysis) => Scenario;
}

/** Distance per drain that stands for the book where the book is not known, km. */
const usualIntervalKm = 10_000;
/** Steady driving: long trips from one cold start a day in mild weather. */
const steady = { tripKm: 40, soakedStartsPerDay: 1, ambientC: 20 };
/** Log-rate at which a source is as good as gone. */
const gone = -6;

const eachSegment = (life: Scenario, change: (segment: Segment) => Segment): Scenario => ({
  ...life,
  segments: life.segments.map(change),
});

function withRate(life: Scenario, index: number, value: number): Scenario {
  const unknowns = life.unknowns.slice();
  unknowns[index] = value;
  return { ...life, unknowns };
}

/** Each charge drained as often as the book asks. */
function byTheBook(life: Scenario, { history, timeline }: UnitAnalysis): Scenario {
  const book = history.engine?.bookIntervalKm ?? usualIntervalKm;
  return eachSegment(life, (segment) => {
    const charge = segment.chargeIndex < 0 ? null : timeline.charges[segment.chargeIndex];
    const km = charge?.exposure.distanceKm ?? segment.exposure.distanceKm;
    const parts = Math.max(1, Math.round(Math.ceil(km / book) * segment.share));
    if (km <= book) return segment;
    return {
      ...segment,
      exposure: partOfExposure(segment.exposure, 1 / parts),
      repeat: segment.repeat * parts,
      startsCharge: true,
    };
  });
}

/** What is taken away, one after the other, always in this order. */
const removals: readonly Removal[] = [
  { cause: 'drains later than the book', without: byTheBook },
  {
    cause: 'faults that spoil oil',
    without: (life) => ({ ...life, charges: life.charges.map((charge) => ({ ...charge, faults: [] })) }),
  },
  {
    cause: 'oil below the engine’s specification',
    without: (life) =>
      eachSegment(life, (segment) => {
        const { fill, engine } = segment.fillAndEngine;
        const dispersancyFactor = Math.max(1, fill.dispersancyFactor);
        const chainWearFactor = Math.min(1, fill.chainWearFactor);
        return {
          ...segment,
          fillAndEngine: { engine, fill: { ...fill, dispersancyFactor, chainWearFactor } },
        };
      }),
  },
  {
    cause: 'idling',
    without: (life) =>
      eachSegment(life, (segment) => ({
        ...segment,
        exposure: { ...segment.exposure, idleHours: 0, ptoHours: 0, fuelLiters: null },
      })),
  },
  {
    cause: 'short trips and cold starts',
    without: (life) =>
      eachSegment(life, (segment) => ({
        ...segment,
        exposure: {
          ...segment.exposure,
          tripKm: Math.max(segment.exposure.tripKm, steady.tripKm),
          soakedStartsPerDay: Math.min(segment.exposure.soakedStartsPerDay, steady.soakedStartsPerDay),
          ambientC: Math.max(segment.exposure.ambientC, steady.ambientC),
        },
      })),
  },
  {
    cause: 'towing and dust',
    without: (life) =>
      eachSegment(life, (segment) => ({
        ...segment,
        exposure: { ...segment.exposure, towingShare: 0, dustShare: 0 },
      })),
  },
  { cause: 'fuel in the oil', without: (life) => withRate(life, latent.fuel, gone) },
  { cause: 'soot', without: (life) => withRate(life, latent.soot, gone) },
];

const rest = 'distance and hours in steady driving';
const evidence = 'what was found on this unit';

/**
 * What made each state, in the state's own unit; the amounts add up to the state.
 * Method: the unit's life is worked out again with one cause after the other taken away, in a fixed order; each cause gets
 * the difference it makes at its turn, the evidence the difference between the estimate with and without it, and steady
 * driving what is left.
 */
export function causesOf(analysis: UnitAnalysis, now: WearPoint): readonly StateCause[] {
  const { response, prior, timeline, applies } = analysis;
  let life: Scenario = {
    segments: response.segments,
    charges: timeline.charges,
    unknowns: prior.mean,
  };
  let before = statesAt(life, analysis);
  const causes: StateCause[] = [];
  const add = (cause: string, amounts: EndStates): void => {
    if (applies.sludge) causes.push({ state: 'sludge', cause, amount: amounts.sludge });
    if (applies.chain) causes.push({ state: 'chain', cause, amount: amounts.chain });
    if (applies.phaser) causes.push({ state: 'phaser', cause, amount: amounts.phaser });
  };
  const reached: EndStates = {
    sludge: now.sludge?.value ?? 0,
    chain: now.chainPercent?.value ?? 0,
    phaser: now.phaserShare?.value ?? 0,
  };
  add(evidence, difference(reached, before));
  for (const { cause, without } of removals) {
    life = without(life, analysis);
    const after = statesAt(life, analysis);
    add(cause, difference(before, after));
    before = after;
  }
  add(rest, before);
  return causes.filter(({ amount }) => amount !== 0);
}

interface EndStates {
  readonly sludge: number;
  readonly chain: number;
  readonly phaser: number;
}

function difference(from: EndStates, to: EndStates): EndStates {
  return { sludge: from.sludge - to.sludge, chain: from.chain - to.chain, phaser: from.phaser - to.phaser };
}

function statesAt(life: Scenario, { context, settings, response }: UnitAnalysis): EndStates {
  const base = new Float64Array(latentCount);
  base.set(life.unknowns);
  const before = response.before.lastIndexOf(1);
  const recordsFrom = before < 0 ? Number.NEGATIVE_INFINITY : response.segments[before].toDay;
  const again = responseOf(life.segments, life.charges, base, context.coefficients, new Set(), recordsFrom);
  const states = emptyTrajectory(life.segments.length);
  trajectoryInto(again, life.unknowns, settings.screenCarry, states);
  const last = life.segments.length - 1;
  return {
    sludge: states.sludge[last],
    chain: Math.max(states.chain1[last], states.chain2[last]),
    phaser: Math.max(states.phaser1[last], states.phaser2[last]),
  };
}
