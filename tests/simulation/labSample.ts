import { isoFromDay } from '../../models/schema/day.ts';
import type { Sample } from '../../models/schema/sample.ts';
import type { DrainEvent } from './life.ts';
import { usedKv100 } from './oilPhysics.ts';
import type { UnitPlan } from './plan.ts';
import type { Random } from './random.ts';

/** What a laboratory reports of the oil that came out, with its error. */
export function labSample(
  plan: UnitPlan,
  drain: DrainEvent,
  odometerKm: number,
  random: Random,
  labNumber: string,
): Partial<Sample> {
  const { oil } = drain;
  const diesel = plan.family.engine.fuelSystem === 'diesel';
  const kv = usedKv100(oil, plan.family) * (1 + 0.02 * random.normal());
  const metal = (per100h: number, base: number) =>
    Math.max(0, Math.round((base + (per100h * oil.hours * drain.wearRate) / 100) * random.logNormal(0.18)));
  const old = oil.category !== 'API SP' && oil.category !== 'API CK-4';
  const additive = (ppm: number) => Math.round(ppm * random.logNormal(0.06));
  return {
    unitNumber: plan.unitNumber,
    sampledOn: isoFromDay(drain.day),
    odometerKm: Math.round(odometerKm),
    ...(random.chance(0.85) ? { oilKm: Math.round(oil.km) } : {}),
    kv100Mm2S: round(kv, 2),
    ...(random.chance(0.4) ? { kv40Mm2S: round(kv * (5.9 + 0.2 * random.normal()), 1) } : {}),
    baseNumberMgKohG: round(Math.max(0.3, oil.baseNumber + 0.35 * random.normal()), 1),
    acidNumberMgKohG: round(
      Math.max(0.4, 1.5 + 0.11 * oil.oxidation + 0.06 * (8.2 - oil.baseNumber) + 0.2 * random.normal()),
      1,
    ),
    fuelPercent: round(Math.max(0, oil.fuelPercent + 0.35 * random.normal()), 1),
    sootPercent: round(Math.max(0, oil.sootPercent * random.logNormal(0.1)), 2),
    oxidationACm: round(Math.max(0, oil.oxidation + 1.2 * random.normal()), 1),
    nitrationACm: round(Math.max(0, 2 + 0.35 * oil.oxidation + 1.2 * oil.load + 0.6 * random.normal()), 1),
    waterPercent: random.chance(0.02) ? 0.15 : 0,
    glycol: false,
    ironPpm: metal(diesel ? 7 : 5, 3),
    copperPpm: metal(1.4, 1),
    leadPpm: metal(0.5, 0),
    aluminiumPpm: metal(1.1, 1),
    siliconPpm: metal(1.6, 4),
    ...(plan.recording.hours ? { oilHoursH: Math.round(oil.hours) } : {}),
    labNumber,
    reportedOn: isoFromDay(drain.day + random.integer(4, 15)),
    baseNumberMethod: 'D2896',
    sodiumPpm: additive(6),
    potassiumPpm: random.integer(0, 3),
    calciumPpm: additive(old ? 2150 : 1250),
    magnesiumPpm: additive(old ? 20 : 620),
    zincPpm: additive(old ? 1020 : 830),
    phosphorusPpm: additive(old ? 930 : 760),
    boronPpm: additive(old ? 20 : 140),
    molybdenumPpm: additive(old ? 15 : 90),
  };
}

function round(value: number, digits: number): number {
  const scale = digits === 2 ? 100 : 10;
  return Math.round(value * scale) / scale;
}
