import { dayFromIso } from '../../models/schema/day.ts';
import { recordKinds, type RecordKind } from '../../models/schema/kinds.ts';
import { duties as allDuties, type DutySpec } from './duty.ts';
import { families as allFamilies, type FamilySpec } from './family.ts';
import type { Life } from './life.ts';
import { places as allPlaces, type PlaceSpec } from './place.ts';
import type { UnitPlan } from './plan.ts';
import { planFleet, type CareName } from './planFleet.ts';
import { randomFrom } from './random.ts';
import { drawRates, lawVariants, multiplyRates, type LawVariant } from './rates.ts';
import { recordLife } from './recordLife.ts';
import type { RecordingName } from './recording.ts';
import { csvOf, noRows, type FleetRows } from './rows.ts';
import { simulateLife } from './simulateLife.ts';
import type { FleetTruth, RenewalTruth, UnitTruth } from './truth.ts';

export interface SimulationOptions {
  readonly seed: number;
  readonly units: number;
  readonly years: number;
  /** ISO date of the first record */
  readonly startOn: string;
  readonly duties?: readonly DutySpec[];
  readonly families?: readonly FamilySpec[];
  readonly places?: readonly PlaceSpec[];
  /** which world: see `lawVariants` */
  readonly physics?: LawVariant;
  /** spread of the logarithm of every true rate over seeds and families; 0 = as the laws have it */
  readonly ratesLogSd?: number;
  /** spread of the logarithm of every true rate over units */
  readonly unitLogSd?: number;
  readonly recording?: Readonly<Partial<Record<RecordingName, number>>>;
  readonly care?: Readonly<Partial<Record<CareName, number>>>;
  readonly usedShare?: number;
  readonly soldShare?: number;
  readonly newShare?: number;
}

export interface SimulatedFleet {
  readonly files: Readonly<Record<RecordKind, string>>;
  readonly rows: FleetRows;
  readonly truth: FleetTruth;
}

/**
 * A fleet with its files and its truth. The same options give the same bytes on every machine.
 * @throws when units or years are below 1
 */
export function simulateFleet(options: SimulationOptions): SimulatedFleet {
  if (!(options.units >= 1)) throw new Error(`units must be at least 1, got ${options.units}`);
  if (!(options.years > 0)) throw new Error(`years must be above 0, got ${options.years}`);
  const startDay = dayFromIso(options.startOn);
  const endDay = startDay + Math.round(options.years * 365.25) - 1;
  const plans = planFleet({
    seed: options.seed,
    units: options.units,
    startDay,
    endDay,
    duties: options.duties ?? Object.values(allDuties),
    families: options.families ?? Object.values(allFamilies),
    places: options.places ?? Object.values(allPlaces),
    recording: options.recording ?? { rich: 4, fair: 4, hoursOnly: 1, odometerOnly: 1 },
    care: options.care ?? { careful: 4, sticker: 4, neglect: 1 },
    usedShare: options.usedShare ?? 0.07,
    soldShare: options.soldShare ?? 0.15,
    newShare: options.newShare ?? 0.25,
  });
  const { rows, lives } = simulatePlans(plans, {
    seed: options.seed,
    physics: options.physics ?? 'soft',
    ratesLogSd: options.ratesLogSd ?? 0.4,
    unitLogSd: options.unitLogSd ?? 0.3,
  });
  describeFleet(rows, plans);
  return {
    files: Object.fromEntries(recordKinds.map((kind) => [kind, csvOf(kind, rows[kind])])) as Record<
      RecordKind,
      string
    >,
    rows,
    truth: { seed: options.seed, startDay, endDay, units: lives.map(truthOf) },
  };
}

export interface World {
  readonly seed: number;
  readonly physics: LawVariant;
  readonly ratesLogSd: number;
  readonly unitLogSd: number;
}

/** Lives every plan in one world and writes down what each shop would. */
export function simulatePlans(
  plans: readonly UnitPlan[],
  world: World,
): { rows: FleetRows; lives: readonly Life[] } {
  const half = world.ratesLogSd * Math.SQRT1_2;
  const fleetRates = drawRates(randomFrom(world.seed, 'fleet rates'), half);
  const rows = noRows();
  const lives = plans.map((plan, index) => {
    const family = plan.family.engine.engineFamily;
    const rates = multiplyRates([
      fleetRates,
      drawRates(randomFrom(world.seed, `family rates ${family}`), half),
      drawRates(randomFrom(world.seed, `unit rates ${index}`), world.unitLogSd),
    ]);
    const life = simulateLife(
      plan,
      rates,
      lawVariants[world.physics],
      randomFrom(world.seed, `life ${index}`),
    );
    recordLife(life, rows, randomFrom(world.seed, `records ${index}`));
    return life;
  });
  return { rows, lives };
}

/** Rows of engines and sites that the plans use. */
export function describeFleet(rows: FleetRows, plans: readonly UnitPlan[]): void {
  for (const family of new Set(plans.map((plan) => plan.family))) rows.engines.push(family.engine);
  for (const place of new Set(plans.map((plan) => plan.place))) {
    const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
    rows.sites.push({
      site: place.name,
      bays: place.bays,
      technicians: place.technicians,
      hoursPerDay: 8,
      weekdays: place.weekdays,
      ...Object.fromEntries(months.map((name, m) => [`meanTemperature${name}C`, place.meanTemperatureC[m]!])),
      timeZone: 'Etc/GMT+5',
      opensAt: '07:30',
      labourRatePerHourCents: 9500,
    });
  }
}

/** What really happened to one unit. */
export function truthOf(life: Life): UnitTruth {
  const { plan } = life;
  const renewals: RenewalTruth[] = [];
  const drains: UnitTruth['drains'][number][] = [];
  for (const event of life.events) {
    const i = Math.max(0, Math.min(life.odometerKm.length - 1, event.day - life.firstDay));
    const meters = {
      odometerKm: life.odometerKm[i]!,
      engineHours: life.engineHours[i]!,
      idleHours: life.idleHours[i]!,
    };
    const onRecord = event.day >= plan.firstRecordDay;
    if (event.kind === 'drain')
      drains.push({ day: event.day, ...meters, grade: event.grade, recorded: event.recorded && onRecord });
    if (event.kind !== 'renewal') continue;
    const { day, component, works, outcome, disposed } = event;
    renewals.push({
      day,
      component,
      works,
      outcome,
      disposed,
      odometerKm: meters.odometerKm,
      recorded: onRecord,
    });
    if (!disposed)
      drains.push({ day, ...meters, grade: plan.family.engine.requiredGrade, recorded: onRecord });
  }
  return {
    unitNumber: plan.unitNumber,
    duty: plan.duty.name,
    engineFamily: plan.family.engine.engineFamily,
    site: plan.place.name,
    inServiceDay: plan.inServiceDay,
    firstRecordDay: plan.firstRecordDay,
    lastDay: life.lastDay,
    disposedDay: life.disposedDay,
    habit: plan.habit,
    recording: plan.recording.name,
    months: life.months,
    drains,
    renewals,
  };
}
