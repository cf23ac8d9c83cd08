import { isoFromDay } from '../../models/schema/day.ts';
import { changeOil, drainWhenDue, planDrain, topUpWhenLow } from './drains.ts';
import { onRecord, type EngineBench } from './engineBench.ts';
import { fillFor } from './fill.ts';
import type { Life } from './life.ts';
import { ageOil, freshOil, type DayUse } from './oilPhysics.ts';
import type { UnitPlan } from './plan.ts';
import type { Random } from './random.ts';
import type { Laws, TrueRates } from './rates.ts';
import { failInService, renew } from './renewals.ts';
import { watchForSigns } from './signs.ts';
import type { Component, MonthTruth } from './truth.ts';
import { monthOf, usageOf } from './usage.ts';
import { chainPercent, hasBelt, hasChain, newWear, wearEngine, type DayHazard } from './wearPhysics.ts';

/** Lives one unit from its first day to its last, day by day. */
export function simulateLife(plan: UnitPlan, rates: TrueRates, laws: Laws, random: Random): Life {
  const span = Math.max(1, plan.lastDay - plan.inServiceDay + 1);
  const meters = [0, 1, 2, 3, 4, 5].map(() => new Float64Array(span)) as Float64Array[];
  const usage = usageOf(plan, random);
  const bench = openBench(plan, random, usage.standFor);
  planDrain(bench);
  // new units are delivered between two services of the rest
  bench.drainAtKm *= 0.6 + 0.4 * random.uniform();
  const hazard: DayHazard = { chain: 0, phaser: 0, belt: 0 };
  const months: MonthTruth[] = [];
  let fuel = 0;
  let starts = 0;
  let pto = 0;
  let i = 0;
  for (; i < span; i++) {
    const day = plan.inServiceDay + i;
    const { use, wear } = bench;
    if (day === plan.firstRecordDay && plan.wearAtStart !== null) Object.assign(wear, plan.wearAtStart);
    usage.on(day, use);
    ageOil(bench.oil, use, plan.family, rates, bench);
    wearEngine(wear, bench.oil, use, plan.family, rates, laws, hazard);
    bench.odometerKm += use.km;
    bench.timingKm += use.km;
    bench.idleHours += use.idleHours;
    bench.engineHours += use.drivingHours + use.idleHours + use.ptoHours;
    fuel += use.fuelLiters;
    pto += use.ptoHours;
    starts += use.km > 0 ? Math.max(1, use.km / plan.duty.tripKm) : 0;
    write(meters, i, bench, pto, fuel, starts);
    failByChance(bench, day, hazard);
    for (const scripted of plan.scripted)
      if (scripted.day === day)
        renew(bench, day, scripted.component, scripted.outcome, scripted.works, scripted.disposes);
    if (day === plan.cleanDay) cleanEngine(bench, day);
    if (bench.disposal === null) {
      topUpWhenLow(bench, day);
      drainWhenDue(bench, day);
      watchForSigns(bench, day);
    }
    keepPromises(bench, day);
    const over = bench.disposal !== null && day >= bench.disposal.day;
    if (over || i === span - 1 || monthOf(day + 1) !== monthOf(day)) months.push(monthTruth(bench, day));
    if (over) break;
  }
  const lastDay = Math.min(plan.lastDay, plan.inServiceDay + i);
  const left =
    bench.disposal !== null && bench.disposal.day <= lastDay
      ? bench.disposal
      : plan.disposalDay !== null && plan.disposalDay <= lastDay
        ? { day: plan.disposalDay, reason: plan.disposalReason ?? 'sold' }
        : null;
  return {
    plan,
    firstDay: plan.inServiceDay,
    lastDay,
    disposedDay: left?.day ?? null,
    disposalReason: left?.reason ?? null,
    odometerKm: meters[0]!,
    engineHours: meters[1]!,
    idleHours: meters[2]!,
    ptoHours: meters[3]!,
    fuelLiters: meters[4]!,
    starts: meters[5]!,
    months,
    events: bench.events.filter((event) => event.day <= lastDay).sort((a, b) => a.day - b.day),
  };
}

function cleanEngine(bench: EngineBench, day: number): void {
  const note = 'pan dropped, screens of both banks out';
  bench.events.push({ kind: 'repair', day, works: ['screen_cleaned'], note });
  changeOil(bench, day, true);
  bench.wear.sludge *= 0.6;
}

function openBench(plan: UnitPlan, random: Random, standFor: (days: number) => void): EngineBench {
  const use: DayUse = {
    km: 0,
    speedKmh: plan.duty.speedKmh,
    drivingHours: 0,
    coldHours: 0,
    idleHours: 0,
    ptoHours: 0,
    soakedStarts: 0,
    towingShare: 0,
    ambientC: 0,
    fuelLiters: 0,
  };
  return {
    plan,
    random,
    events: [],
    use,
    oil: freshOil(null, fillFor(plan.family, plan.habit, random), plan.family.engine.sumpL),
    wear: newWear(),
    odometerKm: plan.inServiceOdometerKm,
    engineHours: 0,
    idleHours: 0,
    timingKm: 0,
    lowLiters: 0,
    ventilation: false,
    thermostat: false,
    disturbedDays: 0,
    drainAtKm: 0,
    drainAtHours: 0,
    drainAtDays: 0,
    pending: [],
    underWatch: false,
    phaseBiasDeg: 0.8 * random.normal(),
    disposal: null,
    standFor,
  };
}

function write(
  meters: Float64Array[],
  i: number,
  bench: EngineBench,
  pto: number,
  fuel: number,
  starts: number,
) {
  meters[0]![i] = bench.odometerKm;
  meters[1]![i] = bench.engineHours;
  meters[2]![i] = bench.idleHours;
  meters[3]![i] = pto;
  meters[4]![i] = fuel;
  meters[5]![i] = starts;
}

function failByChance(bench: EngineBench, day: number, hazard: DayHazard): void {
  const { plan, random } = bench;
  const dice = [random.uniform(), random.uniform(), random.uniform()];
  if (onRecord(bench, day) && plan.spareUntilDay !== null && day < plan.spareUntilDay) return;
  if (bench.disposal !== null) return;
  const components: readonly Component[] = ['chain', 'phaser', 'belt'];
  for (let c = 0; c < 3; c++)
    if (dice[c]! < hazard[components[c]!]) {
      failInService(bench, day, components[c]!);
      return;
    }
}

function keepPromises(bench: EngineBench, day: number): void {
  for (let p = bench.pending.length - 1; p >= 0; p--) {
    const promise = bench.pending[p]!;
    if (promise.day > day) continue;
    bench.pending.splice(p, 1);
    promise.act(day);
  }
}

function monthTruth(bench: EngineBench, day: number): MonthTruth {
  const { wear, plan } = bench;
  return {
    month: isoFromDay(day).slice(0, 7),
    day,
    odometerKm: bench.odometerKm,
    engineHours: bench.engineHours,
    idleHours: bench.idleHours,
    sludge: wear.sludge,
    chainPercent: hasChain(plan.family) ? chainPercent(wear) : null,
    phaserShare: plan.family.engine.phasers > 0 ? wear.phaser : null,
    beltShare: hasBelt(plan.family) ? wear.belt : null,
  };
}
