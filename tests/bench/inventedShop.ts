import type {
  DueJob,
  ShopInputs,
  ShopSite,
  ShopTechnician,
  ShopUnit,
} from '../../models/decisions/shop/shopInputs.ts';
import type { ShopRules } from '../../models/decisions/shop/shopRules.ts';
import type { ShopJob } from '../../models/schema/shopPlan.ts';
import { seededRandom } from '../../models/numeric/random.ts';

const monToFri = [true, true, true, true, true, false, false];

/**
 * An invented fleet with sites whose people are asked for about `load` of their hours: oil changes at each unit's own
 * interval, samples, looks, and the rarer long jobs of the timing drive. Sites have one, two and three people; every
 * third has a bay fewer than people and opens for two shifts, so that the third person has a whole day there.
 */
export function inventedShop(
  unitCount: number,
  weeks: number,
  load: number,
  seed: number,
  rules: ShopRules,
): ShopInputs {
  const random = seededRandom(seed);
  const fromDay = 20454; // 2026-01-01
  const horizon = weeks * 7;
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const drafts: DueJob[][] = [];
  const units: Omit<ShopUnit, 'site'>[] = [];
  let hours = 0;
  for (let u = 0; u < unitCount; u++) {
    const unitNumber = `U${String(u + 1).padStart(5, '0')}`;
    const own: DueJob[] = [];
    drafts.push(own);
    const weekday = random() < 0.15 ? Math.floor(random() * 5) : -1;
    const gone = fromDay + Math.floor(random() * horizon);
    units.push({
      unitNumber,
      downtimeCentsPerDay: Math.round(8000 + random() * 14000),
      blackouts: random() < 0.1 ? [{ fromDay: gone, toDay: gone + 9 }] : [],
      blackoutWeekdays: Array.from({ length: 7 }, (_, i) => i === weekday),
    });
    const add = (
      job: ShopJob,
      median: number,
      halfWidth: number,
      jobHours: number,
      late: number,
      early: number,
      skill: string | null = null,
    ) => {
      own.push({
        words: job,
        jobId: `${unitNumber}/${job}/${own.length}`,
        unitNumber,
        job,
        hours: jobHours,
        skill,
        items: [],
        notBeforeDay: skill === null ? null : fromDay + Math.floor(random() * 14),
        earliestDay: fromDay + Math.round(median - halfWidth),
        medianDay: fromDay + Math.round(median),
        latestDay: fromDay + Math.round(median + 1.3 * halfWidth),
        latenessCentsPerDay: Math.round(late),
        earlinessCentsPerDay: Math.round(early),
      });
      hours += jobHours + 0.15;
    };
    const interval = Math.min(200, Math.max(25, 75 * Math.exp(0.35 * normal())));
    const late = 150 + random() * 650;
    for (let due = interval * random() - (random() < 0.1 ? 20 : 0); due < horizon; due += interval) {
      const oilHours = 0.75 + 0.25 * Math.floor(random() * 3);
      add('oil_change', due, 3 + 0.12 * Math.max(0, due) ** 0.8, oilHours, late, 6000 / interval);
      if (random() < 0.25) add('sample', due, 6, 0.25, 30, 5);
    }
    if (random() < 0.2) add('screen_look', random() * horizon, 12, 0.75, 100 + random() * 300, 15);
    if (random() < 0.1) add('cover_view', random() * horizon, 15, 1.25, 80 + random() * 200, 15);
    if (random() < 0.002 * weeks)
      add('timing_set', random() * horizon, 25, 6.5, 1500 + random() * 4000, 80, 'timing');
    if (random() < 0.0015 * weeks)
      add('phaser', random() * horizon, 25, 4.5, 1000 + random() * 2000, 60, 'timing');
    if (random() < 0.002 * weeks)
      add('oil_control_solenoid', random() * horizon, 20, 1.5, 300 + random() * 600, 30);
    if (random() < 0.1) add('check', random() * horizon, 10, 0.5, 200 + random() * 400, 10);
  }
  const people = Math.max(1, Math.round(hours / (weeks * 5 * 8 * load)));
  const sites: ShopSite[] = [];
  const technicians: ShopTechnician[] = [];
  const siteOfPerson: string[] = [];
  for (let k = 0; k < people;) {
    const here = Math.min(people - k, (sites.length % 3) + 1);
    const site = `Yard ${sites.length + 1}`;
    const shared = here === 3;
    sites.push({
      site,
      bays: Array.from({ length: shared ? 2 : here }, (_, i) => `Bay ${i + 1}`),
      opensAtMinute: 420,
      closesAtMinute: shared ? 1380 : 960,
      weekdays: monToFri,
      holidays: [fromDay, fromDay + 88],
      timeZone: 'Etc/UTC',
    });
    for (let i = 0; i < here; i++, k++) {
      const gone = fromDay + Math.floor(random() * horizon);
      siteOfPerson.push(site);
      technicians.push({
        technician: `${site} technician ${i + 1}`,
        site,
        skills: i === 0 || random() < 0.5 ? ['timing'] : [],
        hoursPerDay: 8,
        away: here > 1 ? [{ fromDay: gone, toDay: gone + 6 }] : [],
      });
    }
  }
  return {
    asOfDay: fromDay,
    fromDay,
    weeks,
    sites,
    technicians,
    units: units.map((unit, u) => ({ ...unit, site: siteOfPerson[u % people] })),
    jobs: drafts.flat(),
    outside: [],
    shelf: [],
    locked: [],
    rules,
    messages: [],
    offsetMinutes: () => 0,
  };
}
