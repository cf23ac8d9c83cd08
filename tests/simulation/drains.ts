import { onRecord, type EngineBench } from './engineBench.ts';
import { fillFor } from './fill.ts';
import { lookAtDrain } from './looks.ts';
import { freshOil } from './oilPhysics.ts';

/** Sets when the shop will next change the oil: its habit, a bit late or early, or one change left out. */
export function planDrain(bench: EngineBench): void {
  const { habit } = bench.plan;
  const { random } = bench;
  const late = random.logNormal(habit.lateLogSd) * (random.chance(habit.missedChance) ? 2.1 : 1);
  bench.drainAtKm = habit.intervalKm * late;
  bench.drainAtHours = habit.intervalHours === null ? Infinity : habit.intervalHours * late;
  bench.drainAtDays = habit.intervalMonths * 30.4 * Math.max(late, 0.9);
}

/** Changes the oil when the habit says so; only on weekdays. */
export function drainWhenDue(bench: EngineBench, day: number): void {
  const { oil } = bench;
  const pause = bench.plan.drainPause;
  if (pause !== null && day >= pause.fromDay && day <= pause.toDay) return;
  if ((day + 3) % 7 >= 5) return;
  if (oil.km < bench.drainAtKm && oil.hours < bench.drainAtHours && oil.days < bench.drainAtDays) return;
  const elsewhere = bench.random.chance(bench.plan.habit.elsewhereChance);
  changeOil(bench, day, !elsewhere);
  if (!elsewhere && onRecord(bench, day)) lookAtDrain(bench, day);
}

/** New oil, noted as a drain of its own. */
export function changeOil(bench: EngineBench, day: number, recorded: boolean): void {
  const { plan, random } = bench;
  const fill = fillFor(plan.family, plan.habit, random);
  const liters = plan.family.engine.sumpL;
  bench.events.push({
    kind: 'drain',
    day,
    oil: { ...bench.oil },
    grade: fill.grade,
    category: fill.category,
    liters: Math.round(10 * liters * (1 + 0.02 * random.normal())) / 10,
    filter: random.chance(0.96),
    recorded,
    wearRate: 1 + 0.12 * bench.wear.sludge + bench.wear.phaser,
  });
  refill(bench);
}

/** New oil as part of a larger job. */
export function refill(bench: EngineBench): void {
  const { plan } = bench;
  bench.oil = freshOil(bench.oil, fillFor(plan.family, plan.habit, bench.random), plan.family.engine.sumpL);
  bench.lowLiters = 0;
  planDrain(bench);
}

/** Loses oil and has it topped up now and then. */
export function topUpWhenLow(bench: EngineBench, day: number): void {
  const { plan, oil, use, random } = bench;
  bench.lowLiters += (plan.oilLossPer1000Km * use.km) / 1000 + plan.oilLossPer1000Km * 0.02 * use.idleHours;
  oil.liters = Math.max(1.5, plan.family.engine.sumpL - bench.lowLiters);
  if (bench.lowLiters < 0.7 || !random.chance(0.06)) return;
  const liters = Math.round(2 * bench.lowLiters) / 2;
  const share = liters / plan.family.engine.sumpL;
  oil.fuelPercent *= 1 - share;
  oil.sootPercent *= 1 - share;
  oil.load *= 1 - 0.5 * share;
  oil.baseNumber += (8.2 - oil.baseNumber) * share;
  oil.additive += (1 - oil.additive) * share;
  bench.lowLiters = Math.max(0, bench.lowLiters - liters);
  bench.events.push({ kind: 'top_up', day, liters, grade: oil.grade });
}
