import type { Entry, Episode, Segment } from '../../../../models/reliability/fleet/episode.ts';
import { normalDraw, seededRandom } from './fleetRandom.ts';
import type { Random } from './fleetRandom.ts';

/** One month of a unit in a simulated fleet, with what wears and what the records show of it. */
export interface Month {
  readonly distanceKm: number;
  readonly engineHours: number;
  readonly idleHours: number;
  /** true wear of the month in lifetimes of the middle family */
  readonly wear: number;
  readonly covariates: readonly number[];
}

export interface SimulatedUnit {
  readonly unitNumber: string;
  readonly family: string;
  /** calendar month in which the unit was new; 0 is when the records begin */
  readonly newInMonth: number;
  /** months run before the first record; 0 for units bought new */
  readonly monthsBefore: number;
  readonly months: readonly Month[];
}

export interface FleetTruth {
  readonly shape: number;
  /** life of each family against the middle one */
  readonly familyFactors: Readonly<Record<string, number>>;
  /** chance per month that a set worn past 0.8 lifetimes is renewed as planned */
  readonly plannedPerMonth: number;
}

interface Life {
  readonly unit: SimulatedUnit;
  readonly from: number;
  readonly to: number;
  readonly end: 'failed' | 'planned' | 'running';
}

export interface SimulatedFleet {
  readonly truth: FleetTruth;
  readonly lives: readonly Life[];
  readonly withHours: boolean;
}

/** Lives of the sets of all units: each wears by its months' wear and fails at a Weibull threshold. */
export function simulateLives(
  units: readonly SimulatedUnit[],
  truth: FleetTruth,
  withHours: boolean,
  random: Random,
): SimulatedFleet {
  const lives: Life[] = [];
  const threshold = (family: string) =>
    truth.familyFactors[family] * (-Math.log(1 - random())) ** (1 / truth.shape);
  for (const unit of units) {
    let from = 0;
    let limit = threshold(unit.family);
    let worn = 0;
    unit.months.forEach((month, k) => {
      worn += month.wear;
      const last = k === unit.months.length - 1;
      const planned = worn > 0.8 && random() < truth.plannedPerMonth;
      if (worn >= limit || planned || last) {
        const end = worn >= limit ? 'failed' : planned ? 'planned' : 'running';
        if (k >= unit.monthsBefore) lives.push({ unit, from, to: k + 1, end });
        from = k + 1;
        worn = 0;
        limit = threshold(unit.family);
      }
    });
  }
  return { truth, lives, withHours };
}

/** Episodes as a fleet's records show them at the end of a month, and what the month window after it brought. */
export interface FrozenFleet {
  readonly episodes: readonly Episode[];
  /** running sets with their true use ahead and whether they failed within the window */
  readonly atRisk: readonly {
    episode: Episode;
    future: readonly Segment[];
    failed: boolean;
    planned: boolean;
  }[];
}

const monthDays = 30.4375;

export function freeze(fleet: SimulatedFleet, calendarMonth: number, windowMonths: number): FrozenFleet {
  const episodes: Episode[] = [];
  const atRisk: { episode: Episode; future: readonly Segment[]; failed: boolean; planned: boolean }[] = [];
  const segment = (month: Month): Segment => ({
    days: monthDays,
    distanceKm: month.distanceKm,
    engineHours: fleet.withHours ? month.engineHours : null,
    idleHours: fleet.withHours ? month.idleHours : null,
    covariates: month.covariates,
  });
  for (const life of fleet.lives) {
    const { unit, from, to, end } = life;
    const atMonth = calendarMonth - unit.newInMonth;
    const first = Math.max(from, unit.monthsBefore);
    if (first >= atMonth) continue;
    const until = Math.min(to, atMonth);
    const running = to > atMonth || (to === atMonth && end === 'running');
    const episode: Episode = {
      unitNumber: unit.unitNumber,
      family: unit.family,
      segments: unit.months.slice(first, until).map(segment),
      end: running ? 'running' : end,
      entry: entryOf(life, fleet.withHours),
      endedDaysAgo: (atMonth - until) * monthDays,
    };
    episodes.push(episode);
    if (!running) continue;
    const endsInside = to <= atMonth + windowMonths;
    atRisk.push({
      episode,
      future: unit.months.slice(atMonth, Math.min(atMonth + windowMonths, unit.months.length)).map(segment),
      failed: endsInside && end === 'failed',
      planned: endsInside && end === 'planned',
    });
  }
  return { episodes, atRisk };
}

/** The records know the whole use of a unit bought used, but not whether its set is the first. */
function entryOf({ unit, from }: Life, withHours: boolean): Entry {
  if (from >= unit.monthsBefore) return 'new';
  const before = unit.months.slice(0, unit.monthsBefore);
  const total = (pick: (month: Month) => number) => before.reduce((sum, month) => sum + pick(month), 0);
  const distanceKm = total((month) => month.distanceKm);
  const use = {
    days: before.length * monthDays,
    distanceKm,
    engineHours: withHours ? total((month) => month.engineHours) : null,
    idleHours: withHours ? total((month) => month.idleHours) : null,
    logSd: 0.05,
  };
  return distanceKm < 130_000
    ? { kind: 'used', ...use }
    : { kind: 'maybe_renewed_before', probability: distanceKm < 300_000 ? 0.15 : 0.5, ...use };
}

/**
 * A fleet as service records often are: odometers every month for ten years, hours and oil unknown. About 160 units of eight families, engines
 * lasting 130 000–600 000 km by a steep Weibull of distance.
 */
export function odometerFleet(seed: number): SimulatedFleet {
  const random = seededRandom(seed);
  const families = Array.from({ length: 8 }, (_, g) => `family ${g + 1}`);
  const familyFactors = Object.fromEntries(
    families.map((family) => [family, Math.exp(0.2 * normalDraw(random))]),
  );
  const shape = 4 + 2 * random();
  const lifeKm = 420_000 * Math.exp(0.15 * normalDraw(random));
  const units = Array.from({ length: 160 }, (_, i): SimulatedUnit => {
    const yearly = 36_000 * Math.exp(0.45 * normalDraw(random));
    const seenFrom = Math.floor(random() * 60);
    const monthsBefore = random() < 0.5 ? 0 : Math.floor(random() * 72);
    const months = Array.from({ length: monthsBefore + 132 - seenFrom }, (): Month => {
      const distanceKm = (yearly / 12) * Math.exp(0.25 * normalDraw(random));
      return { distanceKm, engineHours: 0, idleHours: 0, wear: distanceKm / lifeKm, covariates: [] };
    });
    const family = families[Math.floor(random() * 8)];
    return { unitNumber: `U${i}`, family, newInMonth: seenFrom - monthsBefore, monthsBefore, months };
  });
  return simulateLives(units, { shape, familyFactors, plannedPerMonth: 0.005 }, false, random);
}
