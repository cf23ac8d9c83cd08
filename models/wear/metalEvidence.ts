import type { UnitTimeline } from '../oil/charge.ts';
import { dayFromIso } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { Evidence } from './evidence.ts';
import type { EvidenceSetting } from './evidenceSetting.ts';
import type { Segment } from './segments.ts';
import type { Trajectory } from './trajectory.ts';

/** Distance on the oil below which iron per distance says nothing, km. */
const leastKm = 500;
const leastWear = 1e-6;

/**
 * Iron in used oil as weak evidence on the rate of chain wear.
 * Formula: ln(iron per 1000 km) = ln(iron of a sound engine) + n·ln(chain wear per 1000 km / that of a sound engine).
 * Source: engineering judgement (catalog evidence.iron_*). The family's own level of iron comes in as an offset. Drains after engine or cover work belong to running-in and are left out.
 * @param ironOffset logarithm of the family's level of iron against the catalog's
 */
export function metalEvidence(
  history: UnitHistory,
  timeline: UnitTimeline,
  segments: readonly Segment[],
  { chainLimit, coefficients: c, segmentAt }: EvidenceSetting,
  ironOffset: number,
): readonly Evidence[] {
  if (chainLimit === null) return [];
  const found: Evidence[] = [];
  const told = history.samples.filter(({ ironPpm }) => ironPpm !== null && ironPpm > 0);
  // an engine's own level of iron stays with it from sample to sample: many samples tell little more than one
  const sd = c['evidence.iron_log_sd'] * Math.sqrt(Math.max(1, told.length));
  for (const sample of told) {
    const day = dayFromIso(sample.sampledOn);
    const segment = segmentAt(day);
    const iron = sample.ironPpm;
    if (segment < 0 || segments[segment].chargeIndex < 0 || iron === null) continue;
    const charge = timeline.charges[segments[segment].chargeIndex];
    const km = sample.oilKm ?? charge.exposure.distanceKm;
    if (charge.breakIn || km < leastKm || !segments[segment].endsCharge) continue;
    const first = segments.findIndex(({ chargeIndex }) => chargeIndex === segments[segment].chargeIndex);
    const wear = (states: Trajectory): number => {
      const before = first > 0 && segments[first].resets === 0 ? states.chain1[first - 1] : 0;
      const thousands = Math.max(1, charge.exposure.distanceKm) / 1000;
      return Math.max(leastWear, (states.chain1[segment] - before) / thousands);
    };
    const base = Math.log(c['evidence.iron_ppm_per_1000km']) + ironOffset;
    const reference = c['evidence.iron_chain_percent_per_1000km'];
    found.push({
      day,
      segment,
      state: 'chain',
      words: `sample: iron ${iron} ppm on ${Math.round(km)} km`,
      observed: null,
      recordId: sample.source.id,
      bank: null,
      // the level of iron differs too much between families to teach them
      teaches: 'unit',
      likelihood: {
        kind: 'measured',
        value: Math.log(iron / (km / 1000)),
        sd,
      },
      expect: (states) => base + c['evidence.iron_chain_exponent'] * Math.log(wear(states) / reference),
      stateOf: (states) => states.chain1[segment],
    });
  }
  return found;
}

/** The family's level of iron against the catalog's: the middle of what samples miss by, as logarithm; none → null. */
export function ironOffsetOf(misses: readonly number[]): number | null {
  if (misses.length === 0) return null;
  const sorted = [...misses].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}
