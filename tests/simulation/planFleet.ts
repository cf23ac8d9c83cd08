import type { DutySpec } from './duty.ts';
import type { FamilySpec } from './family.ts';
import type { PlaceSpec } from './place.ts';
import type { UnitPlan } from './plan.ts';
import type { Random } from './random.ts';
import { randomFrom } from './random.ts';
import { recordingHabits, type RecordingHabit, type RecordingName } from './recording.ts';
import type { DrainHabit } from './truth.ts';
import { vinFor } from './vin.ts';

/** How well the shop keeps its drains. */
export type CareName = 'careful' | 'sticker' | 'neglect';

export interface FleetMix {
  readonly seed: number;
  readonly units: number;
  readonly startDay: number;
  readonly endDay: number;
  readonly duties: readonly DutySpec[];
  readonly families: readonly FamilySpec[];
  readonly places: readonly PlaceSpec[];
  /** recording habits and how often each occurs */
  readonly recording: Readonly<Partial<Record<RecordingName, number>>>;
  readonly care: Readonly<Partial<Record<CareName, number>>>;
  /** share of units bought used, sold in the window, and bought new in the window */
  readonly usedShare: number;
  readonly soldShare: number;
  readonly newShare: number;
}

/** The drain habit that a kind of care gives a duty and a family. */
export function habitFor(care: CareName, duty: DutySpec, family: FamilySpec): DrainHabit {
  const { engine } = family;
  const severeKm = engine.bookSevereIntervalKm ?? engine.bookIntervalKm * 0.6;
  const idling = duty.idleHoursPerWorkday > 0.9 || duty.tripKm < 8;
  if (care === 'careful')
    return {
      intervalKm: idling || duty.towingShare > 0.2 ? severeKm : Math.min(engine.bookIntervalKm, 12000),
      intervalHours: engine.hoursLimitH ?? 250,
      intervalMonths: idling ? 6 : 11,
      lateLogSd: 0.09,
      missedChance: 0.01,
      elsewhereChance: 0.01,
      wrongOil: null,
    };
  if (care === 'sticker')
    return {
      intervalKm: idling ? 1.1 * severeKm : engine.bookIntervalKm,
      intervalHours: null,
      intervalMonths: 12,
      lateLogSd: 0.16,
      missedChance: 0.04,
      elsewhereChance: 0.05,
      wrongOil: { chance: 0.03, grade: '10W-30', category: 'API SN' },
    };
  return {
    intervalKm: engine.bookIntervalKm * 1.15,
    intervalHours: null,
    intervalMonths: 15,
    lateLogSd: 0.28,
    missedChance: 0.14,
    elsewhereChance: 0.12,
    wrongOil: { chance: 0.12, grade: '10W-40', category: 'API SN' },
  };
}

/** One of several names by weight. */
export function weighted<Name extends string>(
  random: Random,
  weights: Readonly<Partial<Record<Name, number>>>,
): Name {
  const entries = Object.entries(weights) as [Name, number][];
  let draw = random.uniform() * entries.reduce((sum, entry) => sum + entry[1], 0);
  for (const [name, weight] of entries) {
    draw -= weight;
    if (draw < 0) return name;
  }
  throw new Error(`weighted: weights must be above 0, got ${JSON.stringify(weights)}`);
}

/** Plans a fleet at random: ages, duties, families, care and recording. */
export function planFleet(mix: FleetMix): readonly UnitPlan[] {
  return Array.from({ length: mix.units }, (_, index) => planUnit(mix, index));
}

function planUnit(mix: FleetMix, index: number): UnitPlan {
  const random = randomFrom(mix.seed, `plan ${index}`);
  const duty = random.pick(mix.duties);
  const family = random.pick(mix.families);
  const place = random.pick(mix.places);
  const habit = habitFor(weighted(random, mix.care), duty, family);
  const recording: RecordingHabit = recordingHabits[weighted(random, mix.recording)];
  const window = mix.endDay - mix.startDay;
  const draw = random.uniform();
  const isNew = draw < mix.newShare;
  const isUsed = !isNew && draw < mix.newShare + mix.usedShare;
  const ageDays = random.integer(0, 6 * 365);
  const inServiceDay = isNew
    ? mix.startDay + Math.floor(window * 0.85 * random.uniform())
    : mix.startDay - ageDays;
  const acquiredDay = isUsed ? mix.startDay + Math.floor(window * 0.7 * random.uniform()) : null;
  const firstRecordDay = acquiredDay ?? Math.max(mix.startDay, inServiceDay);
  const sold = random.chance(mix.soldShare);
  const disposalDay = sold
    ? firstRecordDay + 120 + Math.floor(Math.max(0, mix.endDay - firstRecordDay - 120) * random.uniform())
    : null;
  return {
    unitNumber: String(1001 + index),
    vin: vinFor(mix.seed, index),
    description: `${duty.name} ${family.engine.fuelSystem}`,
    place,
    duty,
    family,
    inServiceDay,
    inServiceOdometerKm: random.integer(5, 60),
    firstRecordDay,
    lastDay: disposalDay === null ? mix.endDay : Math.min(mix.endDay, disposalDay),
    disposalDay,
    disposalReason: sold ? random.pick(['sold', 'end of planned life', 'collision damage']) : null,
    plannedDisposalDay: random.chance(0.6)
      ? Math.max(mix.endDay, inServiceDay + 3650) + random.integer(-200, 900)
      : null,
    acquiredDay,
    habit,
    recording,
    useFactor: random.logNormal(0.22),
    idleFactor: random.logNormal(0.25),
    speedFactor: random.logNormal(0.08),
    oilLossPer1000Km: 0.05 * random.logNormal(0.8),
    wearAtStart: null,
    scripted: [],
    cleanDay: null,
    drainPause: null,
    quietFromDay: null,
    disturbed: true,
    spareUntilDay: null,
  };
}
