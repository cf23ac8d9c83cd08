import type { DueJob, FormerPlace, ShopInputs, ShopUnit } from '../decisions/shop/shopInputs.ts';
import { shopRules } from '../decisions/shop/shopRules.ts';
import { weekdaysFromText } from '../decisions/shop/weekCalendar.ts';
import type { UnitRecommendation } from '../decisions/unitRecommendation.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { FleetHistory } from '../schema/history.ts';
import type { Stock } from '../schema/shopResources.ts';
import type { ShopResource } from '../schema/shopRecordEndpoints.ts';
import type { FaultCodes } from '../wear/faultCode.ts';
import { dueWork } from './dueWork.ts';
import type { FleetLearned } from './fleetLearned.ts';
import type { LearnedRatio } from './learnedHours.ts';
import { planPlaces } from './planInputsPlaces.ts';
import { holidaysOf, outsideShopsOf } from './planResources.ts';
import type { UnitView } from './unitView.ts';
import { activeUnits } from './unitViews.ts';

/** What a plan is asked for, beside the fleet. */
export interface PlanQuestion {
  readonly fromDay: number;
  readonly weeks: number;
  readonly locked: readonly FormerPlace[];
  /** outside shops, holidays and loan units */
  readonly resources: readonly ShopResource[];
  /** what the shelves hold */
  readonly shelves: readonly Stock[];
  /** how long the shop takes against the catalog */
  readonly learned: readonly LearnedRatio[];
  readonly faultCodes: FaultCodes;
  /** what the money side advises of a unit */
  readonly recommend: (view: UnitView) => UnitRecommendation | null;
  readonly coefficients: Coefficients;
  readonly offsetMinutes: ShopInputs['offsetMinutes'];
}

const anyDate = /^\d{4}-\d{2}-\d{2}$/;

/**
 * Everything that a plan rests on, from a fleet worked through: due work of every unit, sites, people, shelf, days on which
 * units can't be spared; what is not recorded is taken as usual and said.
 * @param calls of the units, by the id of their record
 * @param views units in service, gone through once
 */
export function planInputs(
  fleet: FleetHistory,
  calls: FleetLearned['calls'],
  views: Iterable<UnitView>,
  question: PlanQuestion,
): ShopInputs {
  const { fromDay, weeks, coefficients } = question;
  const asOfDay = dayFromIso(fleet.asOf);
  const endDay = fromDay + 7 * weeks - 1;
  const places = planPlaces(
    fleet,
    activeUnits(fleet).map(({ unit }) => unit.site),
    (site) => holidaysOf(question.resources, site),
  );
  const units: ShopUnit[] = [];
  const jobs: DueJob[] = [];
  let unknown = 0;
  for (const own of views) {
    const { engine, unit } = own.history;
    const { unitNumber } = unit;
    const call = calls.get(unit.source.id) ?? own.call;
    units.push({
      unitNumber,
      site: places.nameOf(unit.site) ?? 'no site',
      downtimeCentsPerDay:
        engine?.downtimeCostPerDayCents ?? coefficients['money.downtime_cents_per_day'] ?? 0,
      ...sparing(fleet, unitNumber),
    });
    if (own.oil?.due?.dueDay === undefined || own.oil.due.dueDay === null) unknown += 1;
    jobs.push(
      ...dueWork(own, call, question.recommend(own), {
        asOfDay,
        endDay,
        oilServiceHours: fleet.settings.oilServiceHours,
        faultCodes: question.faultCodes,
        coefficients,
      }),
    );
  }
  return {
    asOfDay,
    fromDay,
    weeks,
    sites: places.sites,
    technicians: places.technicians,
    units,
    jobs: jobs.map((job) => asItTakes(job, question.learned)),
    outside: outsideShopsOf(question.resources, places.nameOf),
    shelf: question.shelves.flatMap((entry) =>
      places.nameOf(entry.site) === null
        ? []
        : [
            {
              item: entry.item,
              site: places.nameOf(entry.site) ?? '',
              onHand: entry.onHand ?? 0,
              leadTimeDays: entry.leadTimeDays,
            },
          ],
    ),
    locked: question.locked,
    rules: shopRules(coefficients),
    messages: [
      ...places.messages,
      ...(unknown === 0
        ? []
        : [`the oil of ${unknown} units has no due date: no oil service is planned for them`]),
    ],
    offsetMinutes: question.offsetMinutes,
  };
}

/** A job with the hours that this shop takes for it. */
export function asItTakes(job: DueJob, learned: readonly LearnedRatio[]): DueJob {
  const ratio = learned.find((entry) => entry.job === job.job)?.ratio ?? 1;
  return ratio === 1 ? job : { ...job, hours: Number((job.hours * ratio).toFixed(2)) };
}

/** Days and weekdays on which a unit can't be spared. */
function sparing(fleet: FleetHistory, unitNumber: string): Pick<ShopUnit, 'blackouts' | 'blackoutWeekdays'> {
  const weekdays = [false, false, false, false, false, false, false];
  const blackouts: { fromDay: number; toDay: number }[] = [];
  for (const row of fleet.blackouts) {
    if (row.unitNumber.toLowerCase() !== unitNumber.toLowerCase() || row.from === null) continue;
    if (anyDate.test(row.from)) {
      const fromDay = dayFromIso(row.from);
      const toDay = row.to !== null && anyDate.test(row.to) ? dayFromIso(row.to) : fromDay;
      blackouts.push({ fromDay, toDay });
    } else weekdaysFromText(row.from)?.forEach((held, day) => (weekdays[day] ||= held));
  }
  return { blackouts, blackoutWeekdays: weekdays };
}
