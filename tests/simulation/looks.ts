import type { FindingKind } from '../../models/schema/finding.ts';
import { noticing, type EngineBench } from './engineBench.ts';
import { thinning } from './oilPhysics.ts';
import { chainPercent, hasChain } from './wearPhysics.ts';

/** Notes something seen or measured. */
export function note(
  bench: EngineBench,
  day: number,
  finding: FindingKind,
  value: string,
  more: {
    note?: string;
    bank?: string;
    soakH?: number;
    engineRpm?: number;
    oilTemperatureC?: number;
    always?: boolean;
  } = {},
): void {
  bench.events.push({
    kind: 'look',
    day,
    finding,
    value,
    note: more.note ?? null,
    bank: more.bank ?? null,
    soakH: more.soakH ?? null,
    engineRpm: more.engineRpm ?? null,
    oilTemperatureC: more.oilTemperatureC ?? null,
    always: more.always ?? false,
  });
}

/** The word for a view under the cover, with the eye's error of 0.8 merit. */
export function coverWord(bench: EngineBench): string {
  const merit = 10 - bench.wear.sludge + 0.8 * bench.random.normal();
  if (merit >= 9) return 'clean';
  if (merit >= 7.75) return 'light';
  if (merit >= 6) return 'moderate';
  return merit >= 4 ? 'heavy' : 'severe';
}

/** Share of the screen that is blocked, as a technician judges it. */
export function screenShare(bench: EngineBench): number {
  const { wear, random } = bench;
  const share = Math.exp(1.8 * Math.log(Math.max(1e-3, wear.sludge / 10)) + 0.25 * random.normal());
  return Math.round(100 * Math.min(0.95, share)) / 100;
}

/** Phase deviation in crank degrees: tight strand over sprocket radius, with bias and reading error. */
export function phaseDeviation(bench: EngineBench): number {
  const { engine } = bench.plan.family;
  const pitch = engine.chainPitchMm ?? 8;
  const radius = pitch / (2 * Math.sin(Math.PI / (engine.camSprocketTeeth ?? 36)));
  const perPercent = (2 * (180 / Math.PI) * 0.01 * (engine.tightStrandMm ?? 300)) / radius;
  const degrees = perPercent * chainPercent(bench.wear) + bench.phaseBiasDeg + bench.random.normal();
  return Math.round(10 * degrees) / 10;
}

/** What a technician may notice while the oil is being changed. */
export function lookAtDrain(bench: EngineBench, day: number): void {
  const { plan, wear, oil, random } = bench;
  if (random.chance(0.1))
    note(bench, day, 'cover_view', coverWord(bench), { note: 'through the filler neck' });
  if (bench.lowLiters > 0.5 && random.chance(0.6))
    note(bench, day, 'oil_level_low_l', String(Math.round(10 * bench.lowLiters) / 10));
  if (hasChain(plan.family) && noticing(bench, day) && random.chance(0.07))
    note(bench, day, 'phase_deviation_crank_deg', String(phaseDeviation(bench)), {
      bank: '1',
      note: 'phaser parked',
    });
  if (random.chance(0.05)) {
    const pressure = 168 * (1 - 0.8 * thinning(oil, plan.family)) * (1 - 0.015 * wear.sludge);
    note(bench, day, 'hot_idle_pressure_kpa', String(Math.round(pressure + 6 * random.normal())), {
      engineRpm: 700,
      oilTemperatureC: random.integer(88, 98),
      note: 'mechanical gauge',
    });
  }
  if (plan.family.engine.phasers > 0 && wear.phaser > 0.6 && noticing(bench, day) && random.chance(0.22)) {
    const seconds = Math.min(1.8, 0.5 + 1.8 * (wear.phaser - 0.6) + 0.2 * random.normal());
    if (seconds > 0.3)
      note(bench, day, 'start_rattle_s', String(Math.round(10 * seconds) / 10), {
        soakH: random.integer(9, 14),
      });
  }
  if (random.chance(0.004)) note(bench, day, 'filter_wrong', 'yes', { note: 'bypass valve type, replaced' });
}
