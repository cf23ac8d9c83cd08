import { oilCondition } from '../../../../models/oil/condition.ts';
import { carriedOver } from '../../../../models/oil/conditionThrough.ts';
import type { Exposure, OilState, RateMultipliers } from '../../../../models/oil/exposure.ts';
import { rateNames } from '../../../../models/oil/exposure.ts';
import { oilRange } from '../../../../models/wear/oilRange.ts';
import type { FillAndEngine } from '../../../../models/wear/segments.ts';
import type { FleetUnit } from '../../../../models/wear/learnedRates.ts';
import { coefficients, faultCodes } from '../catalog.ts';
import { SeededRandom } from './random.ts';
import { engineRecord, fillOfEngine, historyOf, sampleRecord, timelineOf } from './records.ts';

/** A unit whose last sample is held back: what it was like then, and all that was known before. */
export interface SampledUnit {
  readonly known: FleetUnit;
  readonly next: {
    readonly exposure: Exposure;
    /** the charge before it, of which some oil stays */
    readonly before: Exposure;
    readonly fillAndEngine: FillAndEngine;
    readonly truth: OilState;
  };
}

const duties: readonly Partial<Exposure>[] = [
  { speedKmh: 80, tripKm: 60, idleHours: 10, soakedStartsPerDay: 1.5, days: 110, ambientC: 14 },
  { speedKmh: 45, tripKm: 15, idleHours: 40, soakedStartsPerDay: 2, days: 180, ambientC: 12 },
  { speedKmh: 28, tripKm: 5, idleHours: 60, soakedStartsPerDay: 3, days: 300, ambientC: 2 },
  { speedKmh: 40, tripKm: 12, idleHours: 200, soakedStartsPerDay: 2, days: 130, ambientC: 15 },
];

function drawRates(random: SeededRandom, logSd: number): RateMultipliers {
  return Object.fromEntries(
    rateNames.map((name) => [name, random.lognormal(logSd)]),
  ) as unknown as RateMultipliers;
}

function product(a: RateMultipliers, b: RateMultipliers): RateMultipliers {
  return Object.fromEntries(rateNames.map((name) => [name, a[name] * b[name]])) as unknown as RateMultipliers;
}

/**
 * Units sampled at a share of their oil changes; true rates differ from the catalog by log-sd 0.4 (family and unit together),
 * and every charge scatters of itself. Only units with two samples or more count.
 */
export function simulateSampledFleet(seed: number, count: number, share: number): SampledUnit[] {
  const random = new SeededRandom(1000 + seed);
  const families = (['PFI', 'GDI', 'TGDI'] as const).map((fuelSystem, i) => ({
    engine: engineRecord({ engineFamily: `S${i}`, fuelSystem, sumpL: random.between(4.5, 6) }),
    rates: drawRates(random, 0.28),
  }));
  const units: SampledUnit[] = [];
  for (let index = 0; index < count; index++) {
    const unit = sampledUnit(index, random.pick(families), random, share);
    if (unit !== null) units.push(unit);
  }
  return units;
}

function sampledUnit(
  index: number,
  family: { engine: ReturnType<typeof engineRecord>; rates: RateMultipliers },
  random: SeededRandom,
  share: number,
): SampledUnit | null {
  const rates = product(family.rates, drawRates(random, 0.28));
  const duty = random.pick(duties);
  const fillAndEngine = fillOfEngine(family.engine)();
  const drains: { exposure: Exposure; truth: OilState; sampled: boolean }[] = [];
  for (let i = 0; i < 28; i++) {
    const longer = random.lognormal(0.2);
    const exposure: Exposure = {
      distanceKm: 8000 * longer,
      speedKmh: duty.speedKmh ?? 45,
      tripKm: duty.tripKm ?? 15,
      idleHours: (duty.idleHours ?? 40) * longer * random.lognormal(0.2),
      ptoHours: 0,
      days: Math.round((duty.days ?? 180) * longer),
      ambientC: (duty.ambientC ?? 12) + random.normal(0, 5),
      towingShare: 0,
      dustShare: 0,
      soakedStartsPerDay: duty.soakedStartsPerDay ?? 2,
      fuelLiters: null,
      litersPer100Km: 9,
    };
    const { fill, engine } = fillAndEngine;
    const from: OilState | undefined =
      i === 0 ? undefined : carriedOver(drains[i - 1].truth, engine, fill, coefficients);
    const own = product(rates, drawRates(random, 0.08));
    const truth = oilCondition(exposure, engine, fill, own, coefficients, from).state;
    drains.push({ exposure, truth, sampled: random.chance(share) });
  }
  const taken = drains.map(({ sampled }, i) => (sampled ? i : -1)).filter((i) => i >= 0);
  if (taken.length < 2) return null;
  const last = taken[taken.length - 1];
  const timeline = timelineOf([...drains.slice(0, last), { exposure: drains[last].exposure }]);
  const samples = taken.slice(0, -1).map((i) => {
    const { truth, exposure } = drains[i];
    const { charges } = timeline;
    return sampleRecord(charges[i].endDay, {
      oilKm: Math.round(exposure.distanceKm),
      baseNumberMgKohG: Math.max(0, truth.baseNumber + random.normal(0, 0.5)),
      acidNumberMgKohG: Math.max(0, truth.acidNumber + random.normal(0, 0.3)),
      kv100Mm2S: truth.kv100 * (1 + random.normal(0, 0.03)),
      fuelPercent: Math.max(0, truth.fuelPercent + random.normal(0, 0.5)),
      sootPercent: truth.sootPercent * random.lognormal(0.1),
      oxidationACm: Math.max(0, truth.oxidation + random.normal(0, 1.5)),
    });
  });
  return {
    known: {
      timeline: { ...timeline, unitNumber: `S${index}` },
      history: historyOf({
        engine: family.engine,
        samples,
        unitFields: { unitNumber: `S${index}`, engineFamily: family.engine.engineFamily },
      }),
      context: { coefficients, faultCodes, fillOf: fillOfEngine(family.engine) },
    },
    next: {
      exposure: drains[last].exposure,
      before: drains[last - 1].exposure,
      fillAndEngine,
      truth: drains[last].truth,
    },
  };
}

/** The range that is expected of the held-back sample under the rates believed. */
export function expectedNext(
  { next }: SampledUnit,
  believed: Parameters<typeof oilRange>[2],
): ReturnType<typeof oilRange> {
  const { fill, engine } = next.fillAndEngine;
  const old = oilCondition(next.before, engine, fill, believed.rates, coefficients).state;
  const from = carriedOver(old, engine, fill, coefficients);
  return oilRange(next.exposure, next.fillAndEngine, believed, coefficients, from);
}
