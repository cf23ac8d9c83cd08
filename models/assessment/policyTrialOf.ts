import { monthlyRate } from '../decisions/monthlyRate.ts';
import { unitCosts } from '../decisions/moneyUnit.ts';
import { policyTrial, type ChangeRhythm, type TrialUnit } from '../decisions/policyTrial.ts';
import { seededRandom } from '../numeric/random.ts';
import { wholeCents } from '../decisions/range.ts';
import { riskOf } from '../decisions/risk.ts';
import { coverOf } from '../decisions/warranty.ts';
import type { OilCatalog } from '../oil/oilFill.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { isoFromDay } from '../schema/day.ts';
import type { PolicyTrialDocument } from '../schema/policyTrial.ts';
import { assessOil } from './assessOil.ts';
import { fillNow } from './assessUnit.ts';
import { moneyUnitOf, type MoneySetting } from './moneyUnitOf.ts';
import { dutyGroups, type DutyGroup } from './policyInputs.ts';
import type { UnitView } from './unitView.ts';

/** What is tried. */
export interface TrialQuestion {
  readonly intervalKm: number;
  readonly months: number;
  readonly draws: number;
  readonly seed: number;
}

const daysPerMonth = 365.25 / 12;
type Trial = Omit<PolicyTrialDocument, 'asOf' | 'currency'>;

/**
 * Tries an interval on the units of one duty: oil changes a month, failures, cost and due dates, against what is kept today.
 * Today is each unit's own usual interval; under the trial it is the advised one with the interval as its cap. Life is used
 * up in proportion to the condition model's wear at the two intervals.
 * @param views units of the duty
 * @returns null where the group has no use or oil charge to go by
 * Source: {@link policyTrial}; that a part's hazard runs on the life used up is the model's assumption.
 */
export function policyTrialOf(
  views: readonly UnitView[],
  question: TrialQuestion,
  oilCatalog: OilCatalog,
  serviceHours: number,
  setting: MoneySetting,
  c: Coefficients,
): Trial | null {
  const [group] = dutyGroups(views, oilCatalog, serviceHours, c);
  if (group === undefined) return null;
  const tried = views.map((view) => triedUnit(view, question, group, setting, c));
  const moving = tried.filter((entry) => entry !== null);
  const result = policyTrial({
    units: moving.map(({ unit }) => unit),
    months: question.months,
    draws: question.draws,
    monthlyRate: monthlyRate(c),
    fleetUseLogSd: c['money.use_log_sd'],
    failureLogSd: c['money.failure_cost_log_sd'],
    random: seededRandom(question.seed),
  });
  const shown = (rhythm: (typeof result)['now']): Trial['now'] => ({
    ...rhythm,
    changeCents: wholeCents(rhythm.changeCents),
    failureCents: wholeCents(rhythm.failureCents),
    byMonth: [...rhythm.byMonth],
  });
  return {
    duty: group.inputs.duty,
    ...question,
    units: views.length,
    now: shown(result.now),
    then: shown(result.then),
    failuresAvoided: result.failuresAvoided,
    savingCents: wholeCents(result.savingCents),
    chanceOfLoss: result.chanceOfLoss,
    dueDates: moving
      .map(({ due }) => due)
      .filter(({ nowOn, thenOn }) => nowOn !== thenOn)
      .sort((a, b) => ((a.thenOn ?? '9999') < (b.thenOn ?? '9999') ? -1 : 1)),
    keepOwn: moving.filter(({ keepsOwn }) => keepsOwn).map(({ due }) => due.unitNumber),
    notes: notesOf(question, group, views.length, moving),
  };
}

type Tried = NonNullable<ReturnType<typeof triedUnit>>;

/** One unit under both intervals; null where it is not driven or has no oil charge to go by. */
function triedUnit(
  view: UnitView,
  { intervalKm, months }: TrialQuestion,
  { inputs }: DutyGroup,
  setting: MoneySetting,
  c: Coefficients,
) {
  const { timeline, states, book, oil } = view;
  const { kmPerDay, usualIntervalKm, useLogSd } = timeline.duty;
  const filled = fillNow(timeline, view.fillOf);
  if (filled === null || oil === null || !(kmPerDay > 0.5)) return null;
  const trialBook = { ...book, adopted: { intervalKm, by: 'the trial', on: isoFromDay(timeline.asOfDay) } };
  const trial = assessOil(timeline, states, trialBook, filled, c);
  const bare = assessOil(timeline, states, book, filled, c);
  // a sample that calls for a change at once does so under any interval
  const held = bare.due?.dueDay !== oil.due?.dueDay;
  const [nowDay, thenDay] = [oil.due?.dueDay ?? null, (held ? oil : trial).due?.dueDay ?? null];
  const sinceKm = oil.assessment.kmSinceChange;
  const advised = rhythmOf(trial.advice.interval, trial.advice.governing, kmPerDay);
  const keptKm = usualIntervalKm ?? null;
  const kept: ChangeRhythm =
    keptKm === null
      ? rhythmOf(bare.advice.interval, bare.advice.governing, kmPerDay)
      : { everyDays: keptKm / kmPerDay, firstDays: 0, byUse: true };
  const unit: TrialUnit = {
    failing: failingOf(view, months, setting, c),
    now: { ...kept, firstDays: firstOf(kept, sinceKm, kmPerDay) },
    then: {
      ...advised,
      firstDays: thenDay === null ? advised.everyDays / 2 : Math.max(0, thenDay - timeline.asOfDay),
    },
    lifeRatio: ratioOf(inputs, advised.everyDays * kmPerDay, kept.everyDays * kmPerDay),
    changeCents: inputs.oil.oilCents + inputs.oil.labourCents + inputs.oil.downtimeCents,
    useLogSd,
  };
  const iso = (day: number | null): string | null => (day === null ? null : isoFromDay(Math.round(day)));
  return {
    unit,
    keptKnown: keptKm !== null,
    keepsOwn: book.approved !== undefined && book.approved.intervalKm > intervalKm,
    due: {
      unitNumber: view.history.unit.unitNumber,
      nowOn: iso(nowDay),
      thenOn: iso(thenDay),
      days: nowDay === null || thenDay === null ? null : Math.round(thenDay) - Math.round(nowDay),
    },
  };
}

function rhythmOf(
  { distanceKm, days }: { readonly distanceKm: number; readonly days: number },
  governing: string,
  kmPerDay: number,
): ChangeRhythm {
  const everyDays = Math.max(1, days > 0 ? days : distanceKm / kmPerDay);
  return { everyDays, firstDays: 0, byUse: governing !== 'calendar' };
}

/** Days to the next change when the interval kept today goes on; half of one where the last change is not on record. */
function firstOf({ everyDays }: ChangeRhythm, sinceKm: number | null, kmPerDay: number): number {
  return sinceKm === null ? everyDays / 2 : Math.max(0, everyDays - sinceKm / kmPerDay);
}

/** Life used a day at one interval against another, by draw of what is not known of the wear. */
function ratioOf({ oil }: DutyGroup['inputs'], thenKm: number, nowKm: number): (draw: number) => number {
  const ratios = Array.from({ length: oil.draws }, (_, draw) => {
    const now = oil.lifeSharePerKm(nowKm, draw);
    return now > 0 ? Math.max(1e-3, oil.lifeSharePerKm(thenKm, draw) / now) : 1;
  });
  return (draw) => ratios[draw % ratios.length];
}

function failingOf(
  view: UnitView,
  months: number,
  setting: MoneySetting,
  c: Coefficients,
): TrialUnit['failing'] {
  const unit = moneyUnitOf(view, setting);
  if (unit.risk === null) return null;
  const { asOfDay } = view.timeline;
  const costs = unitCosts(unit, c);
  const cover = coverOf(unit.warranty, asOfDay);
  const left = unit.disposalDay === null ? months : (unit.disposalDay - asOfDay) / daysPerMonth;
  return {
    risk: riskOf(unit.risk),
    months: Math.max(0, Math.min(months, left)),
    failureCents: costs.failureCents + costs.failureDowntimeCents,
    coveredMonths: !cover.covered
      ? 0
      : cover.claimByDay === null
        ? Infinity
        : (cover.claimByDay - asOfDay) / daysPerMonth,
    coveredCents: costs.failureDowntimeCents,
  };
}

function notesOf(
  { intervalKm, months }: TrialQuestion,
  { inputs: { bookIntervalKm } }: DutyGroup,
  units: number,
  moving: readonly Tried[],
): string[] {
  const notes = [
    "today's changes fall at the interval that each unit keeps; due dates that move are those advised now",
    `over ${months} months; wear that an interval brings forward beyond them is in the curve and not in this trial`,
    'the chance of failure is taken to run on the life used up, in proportion to the wear of the condition model',
  ];
  if (bookIntervalKm !== null && intervalKm > bookIntervalKm)
    notes.unshift(
      `${Math.round(intervalKm)} km is beyond the book's ${Math.round(bookIntervalKm)} km: it caps nothing and can't be adopted`,
    );
  if (moving.length < units)
    notes.push(
      `${units - moving.length} of ${units} units have no use or oil charge to go by and are left out`,
    );
  const guessed = moving.filter(({ keptKnown }) => !keptKnown).length;
  if (guessed > 0)
    notes.push(`of ${guessed} units the interval kept is not known: the advised one stands for it`);
  return notes;
}
