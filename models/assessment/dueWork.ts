import { orderItems } from '../cards/cardItems.ts';
import { coefficientValue } from '../decisions/coefficientValue.ts';
import type { DueJob } from '../decisions/shop/shopInputs.ts';
import type { UnitRecommendation } from '../decisions/unitRecommendation.ts';
import { dayFromIso } from '../schema/day.ts';
import { dueOil } from './dueWorkOil.ts';
import type { DueSetting } from './dueWorkSetting.ts';
import { dueSigns } from './dueWorkSigns.ts';
import { jobHours } from './jobHours.ts';
import type { UnitView } from './unitView.ts';

/**
 * All work of one unit that falls due by the end of a plan: a check where a stop stands, oil services by their due dates,
 * samples where the unit is sampled, what signs on phasers and their solenoids ask for, and the look, cleaning or renewal
 * that pays.
 * @param call the fleet's call on the unit with its reasons
 * @param recommended what the money side advises; null = not judged
 * @returns jobs with due windows and costs by day; those due after a planned disposal are left out
 */
export function dueWork(
  view: UnitView,
  call: { readonly call: string; readonly reasons: readonly string[] },
  recommended: UnitRecommendation | null,
  setting: DueSetting,
): DueJob[] {
  const { unit } = view.history;
  const disposal = unit.plannedDisposalOn === null ? Infinity : dayFromIso(unit.plannedDisposalOn);
  return [
    ...stopCheck(view, call, setting),
    ...dueOil(view, setting),
    ...dueSamples(view, setting),
    ...oneOfEach(dueSigns(view, setting), dueRenewal(view, recommended, setting)),
  ].filter((job) => job.medianDay <= Math.min(setting.endDay, disposal));
}

/**
 * A renewed timing set takes phasers and solenoids with it; screens are looked at by whoever has the solenoid out, so that a
 * look of its own falls away.
 */
function oneOfEach(signs: readonly DueJob[], advised: readonly DueJob[]): readonly DueJob[] {
  if (advised.some(({ job }) => job === 'timing_set')) return advised;
  return signs.length === 0 ? advised : [...signs, ...advised.filter(({ job }) => job !== 'screen_look')];
}

const blank = { skill: null, items: [], notBeforeDay: null } as const;

function stopCheck(
  { history }: UnitView,
  { call, reasons }: Parameters<typeof dueWork>[1],
  { asOfDay, oilServiceHours, coefficients }: DueSetting,
): DueJob[] {
  if (call !== 'stop') return [];
  return [
    {
      ...blank,
      jobId: `${history.unit.unitNumber}/check/stop`,
      unitNumber: history.unit.unitNumber,
      job: 'check',
      words: `check before it runs again: ${reasons[0]}`,
      hours: jobHours('check', history.engine, oilServiceHours, coefficients),
      earliestDay: asOfDay,
      medianDay: asOfDay,
      latestDay: asOfDay,
      latenessCentsPerDay: Math.max(
        history.engine?.downtimeCostPerDayCents ?? 0,
        coefficientValue(coefficients, 'shop.stop_lateness_cents'),
      ),
      earlinessCentsPerDay: 0,
    },
  ];
}

function dueSamples({ history }: UnitView, { asOfDay, endDay, coefficients }: DueSetting): DueJob[] {
  const last = history.samples[history.samples.length - 1];
  if (last === undefined) return [];
  const every = coefficientValue(coefficients, 'shop.sample_interval_days');
  const jobs: DueJob[] = [];
  let due = dayFromIso(last.sampledOn) + every;
  // a unit that missed two more samples is not sampled regularly
  if (due + 2 * every < asOfDay) return [];
  for (let count = history.samples.length + 1; due <= endDay; count += 1) {
    jobs.push({
      ...blank,
      jobId: `${history.unit.unitNumber}/sample/${count}`,
      unitNumber: history.unit.unitNumber,
      job: 'sample',
      words: 'draw an oil sample',
      hours: coefficientValue(coefficients, 'shop.item_hours.sample'),
      items: orderItems(history.engine, 'sample'),
      earliestDay: due - Math.round(every / 6),
      medianDay: due,
      latestDay: due + Math.round(every / 6),
      latenessCentsPerDay: coefficientValue(coefficients, 'shop.sample_lateness_cents'),
      earlinessCentsPerDay: coefficientValue(coefficients, 'shop.sample_earliness_cents'),
    });
    due = Math.max(due, asOfDay) + every;
  }
  return jobs;
}

const lookJobs = { screen: 'screen_look', cover: 'cover_view', phase: 'phase_reading' } as const;

function dueRenewal(
  { history, failure }: UnitView,
  advice: UnitRecommendation | null,
  { asOfDay, oilServiceHours, coefficients }: DueSetting,
): DueJob[] {
  if (advice === null || advice.action === 'run' || advice.on === null) return [];
  const { unitNumber } = history.unit;
  const look = advice.judged?.ranking?.looks[0]?.look ?? 'screen';
  const job =
    advice.action === 'renew' ? 'timing_set' : advice.action === 'look' ? lookJobs[look] : 'screen_look';
  const window = coefficientValue(coefficients, 'shop.renewal_window_days');
  const medianDay = Math.max(asOfDay, dayFromIso(advice.on));
  const daily = ((failure?.probability ?? 0) * advice.costs.failureCents) / 365;
  const waiting = (advice.waitingMonthCents?.mid ?? 0) / 30.4;
  const renewal = advice.action === 'renew';
  return [
    {
      jobId: `${unitNumber}/${job}/advised`,
      unitNumber,
      job,
      words: advice.words,
      hours: jobHours(job, history.engine, oilServiceHours, coefficients),
      skill: renewal ? 'timing' : null,
      items: orderItems(history.engine, job),
      notBeforeDay: null,
      earliestDay: Math.max(asOfDay, medianDay - window),
      medianDay,
      latestDay: medianDay + window,
      latenessCentsPerDay: Math.round(Math.max(waiting, renewal ? 0.5 * daily : 0.1 * daily)),
      earlinessCentsPerDay: Math.round(Math.max(0, -waiting)),
    },
  ];
}
