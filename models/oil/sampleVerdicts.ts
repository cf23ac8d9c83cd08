import type { Coefficients } from '../schema/coefficient.ts';
import type { Sample } from '../schema/sample.ts';
import { comparableBaseNumber } from './baseNumberMethod.ts';
import type { CondemningLimit, CondemningLimits, Measurand } from './condemningLimits.ts';
import { limitsFor } from './condemningLimits.ts';
import type { OilEngine, OilFill } from './exposure.ts';
import { metalRate } from './metalRate.ts';

/** How a value stands against its limits; `alert` only where the fleet's own alarm limits have it. */
export const sampleLevels = ['normal', 'caution', 'alert', 'condemn'] as const;
export type SampleLevel = (typeof sampleLevels)[number];

/** One measurand of a sample, judged. */
export interface SampleVerdict {
  readonly measurand: Measurand;
  readonly level: SampleLevel;
  /** as reported */
  readonly value: number;
  /** as compared: a share of fresh, a value above fresh or the value itself */
  readonly compared: number;
  readonly unit: string;
  readonly caution: number;
  readonly condemn: number;
  /** for wear metals, per 1000 km and corrected for make-up oil; null: distance not known or no metal */
  readonly ppmPer1000Km: number | null;
  readonly words: string;
  readonly source: string;
}

/** What is known around a sample. */
export interface SampleContext {
  readonly fill: OilFill;
  readonly engine: OilEngine;
  /** oil added since the drain, L */
  readonly topUpLiters: number;
  /** silicon of the new oil, ppm */
  readonly freshSiliconPpm: number;
  /** first two drains after engine or cover work */
  readonly breakIn: boolean;
}

const fields: Partial<Record<Measurand, keyof Sample>> = {
  acidNumber: 'acidNumberMgKohG',
  kv100: 'kv100Mm2S',
  fuelPercent: 'fuelPercent',
  sootPercent: 'sootPercent',
  oxidation: 'oxidationACm',
  nitration: 'nitrationACm',
  waterPercent: 'waterPercent',
  ironPpm: 'ironPpm',
  copperPpm: 'copperPpm',
  leadPpm: 'leadPpm',
  aluminiumPpm: 'aluminiumPpm',
  siliconPpm: 'siliconPpm',
  sodiumPpm: 'sodiumPpm',
  potassiumPpm: 'potassiumPpm',
};
const wearMetals: ReadonlySet<Measurand> = new Set([
  'ironPpm',
  'copperPpm',
  'leadPpm',
  'aluminiumPpm',
  'siliconPpm',
]);

/** The reported value of a measurand; null: not reported, or no column of a sample. Base number as reported. */
export function reportedValue(sample: Sample, measurand: Measurand): number | null {
  if (measurand === 'baseNumber') return sample.baseNumberMgKohG;
  const field = fields[measurand];
  const value = field === undefined ? null : sample[field];
  return typeof value === 'number' ? value : null;
}

/**
 * Judges each reported measurand of a used-oil sample.
 * Base number is compared by one method (D2896) with fresh oil, acid number with base number and with fresh, viscosity
 * as a share of fresh, wear metals in ppm, silicon above new oil. In a break-in population metals are a caution at most;
 * the fleet's own alarm limits judge beside these (`judgeSample`).
 * @param sample as reported
 * @param limits from data/catalog/condemning-limits.json
 * @returns one verdict per measurand, the worst of its limits; nothing for what was not measured
 * Source: the limit's own, in the verdict.
 */
export function sampleVerdicts(
  sample: Sample,
  context: SampleContext,
  limits: CondemningLimits,
  coefficients: Coefficients,
): readonly SampleVerdict[] {
  const verdicts: SampleVerdict[] = [];
  const names = new Set(limits.map((limit) => limit.measurand));
  for (const measurand of names) {
    const value = reportedValue(sample, measurand);
    if (value === null) continue;
    const judged = limitsFor(measurand, context.engine.fuelSystem, limits)
      .map((limit) => judge(limit, value, sample, context, coefficients))
      .filter((verdict) => verdict !== null);
    if (judged.length === 0) continue;
    verdicts.push(judged.reduce((worst, next) => (rank(next.level) > rank(worst.level) ? next : worst)));
  }
  return verdicts;
}

const rank = (level: SampleLevel): number => sampleLevels.indexOf(level);

function judge(
  limit: CondemningLimit,
  value: number,
  sample: Sample,
  context: SampleContext,
  coefficients: Coefficients,
): SampleVerdict | null {
  const { measurand } = limit;
  const plain =
    measurand === 'baseNumber'
      ? comparableBaseNumber(value, sample.baseNumberMethod, coefficients).value
      : value;
  const compared = comparedValue(limit, plain, sample, context, coefficients);
  if (compared === null) return null;
  const past = (bound: number) => (limit.side === 'max' ? compared >= bound : compared <= bound);
  const measured: SampleLevel = past(limit.condemn) ? 'condemn' : past(limit.caution) ? 'caution' : 'normal';
  const held = context.breakIn && wearMetals.has(measurand) && measured !== 'normal';
  const level = held ? 'caution' : measured;
  return {
    measurand,
    level,
    value,
    compared,
    unit: limit.unit,
    caution: limit.caution,
    condemn: limit.condemn,
    ppmPer1000Km: rateOf(measurand, value, sample, context),
    words: wordsOf(limit, level, value, compared, held),
    source: limit.source,
  };
}

function comparedValue(
  limit: CondemningLimit,
  value: number,
  sample: Sample,
  { fill, freshSiliconPpm }: SampleContext,
  coefficients: Coefficients,
): number | null {
  const { measurand, basis } = limit;
  if (basis === 'absolute') return value;
  if (basis === 'above_fresh')
    return measurand === 'siliconPpm' ? value - freshSiliconPpm : value - fill.acidNumber;
  if (basis === 'share_of_fresh') return value / (measurand === 'kv100' ? fill.kv100 : fill.baseNumber);
  if (sample.baseNumberMgKohG === null) return null;
  const base = comparableBaseNumber(sample.baseNumberMgKohG, sample.baseNumberMethod, coefficients).value;
  return base > 0 ? value / base : null;
}

function rateOf(
  measurand: Measurand,
  value: number,
  sample: Sample,
  { topUpLiters, engine, freshSiliconPpm }: SampleContext,
): number | null {
  if (!wearMetals.has(measurand)) return null;
  const fresh = measurand === 'siliconPpm' ? freshSiliconPpm : 0;
  return metalRate(value, sample.oilKm, topUpLiters, engine.sumpLiters, fresh).ppmPer1000Km;
}

function wordsOf(
  limit: CondemningLimit,
  level: SampleLevel,
  value: number,
  compared: number,
  held: boolean,
): string {
  const bound = level === 'condemn' ? limit.condemn : limit.caution;
  const shown =
    limit.basis === 'share_of_fresh'
      ? `${limit.label} ${value} is ${Math.round(100 * compared)} % of fresh`
      : limit.basis === 'share_of_base'
        ? `acid number is ${Math.round(100 * compared)} % of base number`
        : limit.basis === 'above_fresh'
          ? `${limit.label} is ${compared.toFixed(1)} ${limit.unit} above fresh`
          : `${limit.label} ${value}${limit.unit === '1' ? '' : ` ${limit.unit}`}`;
  const shownBound = limit.basis.startsWith('share')
    ? `${Math.round(100 * bound)} %`
    : `${bound} ${limit.unit}`;
  const side = limit.side === 'max' ? 'most' : 'least';
  const breakIn = held ? '; in the first drains after engine or cover work this is common' : '';
  return level === 'normal'
    ? `${shown}, within its limits.`
    : `${shown} (${level} at ${side} ${shownBound})${breakIn}.`;
}
