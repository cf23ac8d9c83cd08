import { calls, type Call } from '../schema/assessment.ts';
import type { Settings } from '../schema/settings.ts';
import { casesWords, chanceWords, horizonWords } from './chanceWords.ts';
import { percentWords } from './words.ts';

/** What a call is made from. */
export interface CallInputs {
  /** each a reason that raises stop: verified low pressure, coolant in oil, correlation code, elongation past the limit */
  readonly directEvidence: readonly string[];
  /** a named technician has recorded a finding that clears the direct evidence; never true by time alone */
  readonly clearedStop: boolean;
  /** median due day, days since 1970-01-01; null = not known or more than ten years off */
  readonly dueDayMedian: number | null;
  /** probability that the limit has been passed, 0..1 */
  readonly chancePastNow: number;
  /** chance of failure within the horizon, 0..1; null = not known */
  readonly failureProbability: number | null;
  /** a look or a renewal is worth its cost now */
  readonly looksOrRenewalPaysNow: boolean;
  /** a renewal becomes worth its cost within 12 months */
  readonly renewalPaysWithin12Months: boolean;
  /** what paying is worth, in words; left out: only that it pays */
  readonly payWords?: string;
  /** caution limits that have been passed, each in words */
  readonly cautionLimitsPassed: readonly string[];
  /** share of the last two years with meters, drains and grades known, 0..1 */
  readonly recordQuality: number;
  /** days since 1970-01-01 */
  readonly asOfDay: number;
}

export interface CallResult {
  readonly call: Call;
  /** why, most urgent first; never empty */
  readonly reasons: readonly string[];
}

/**
 * The call on one unit: the most urgent level that any reason raises. Stop comes from direct evidence only and is lifted
 * only by a technician's finding; book, plan and watch come from the due date, the chance of failure, what pays, caution
 * limits and record quality. What is not known can not be clear: it is watched.
 * @param inputs see {@link CallInputs}
 * @param settings the shop's thresholds (bookWithinDays, planFailureProbability, …)
 * @returns call and reasons in words; a unit due in 5 days with nothing else gives book, "oil due in 5 days"
 * @throws never; shares outside 0..1 are taken as they are
 * Source: the product's own rule, common practice, no source.
 */
export function callFor(inputs: CallInputs, settings: Settings): CallResult {
  const found: [Call, string][] = [];
  for (const evidence of inputs.directEvidence)
    found.push(
      inputs.clearedStop ? ['watch', `cleared by a technician's finding: ${evidence}`] : ['stop', evidence],
    );
  found.push(...dueReason(inputs, settings), ...failureReason(inputs, settings));
  if (inputs.looksOrRenewalPaysNow)
    found.push(['book', inputs.payWords ?? 'a look or a renewal is worth its cost now']);
  else if (inputs.renewalPaysWithin12Months)
    found.push(['plan', inputs.payWords ?? 'a renewal becomes worth its cost within 12 months']);
  for (const caution of inputs.cautionLimitsPassed) found.push(['watch', caution]);
  if (inputs.recordQuality < settings.watchRecordQuality)
    found.push([
      'watch',
      `records of the last two years are ${percentWords(inputs.recordQuality)} complete, below ${percentWords(settings.watchRecordQuality)}`,
    ]);
  found.sort((a, b) => calls.indexOf(a[0]) - calls.indexOf(b[0]));
  if (found.length === 0) return { call: 'clear', reasons: ['nothing due and no limit passed'] };
  return { call: found[0]![0], reasons: found.map((entry) => entry[1]) };
}

/** From this chance on, being past due needs no chance beside it. */
const surelyPast = 0.95;

function dueReason(inputs: CallInputs, settings: Settings): [Call, string][] {
  if (inputs.dueDayMedian === null) return [['watch', 'the oil due date is not known']];
  const days = Math.round(inputs.dueDayMedian - inputs.asOfDay);
  if (days > 7 * settings.planWithinWeeks) return [];
  const level: Call = days <= settings.bookWithinDays ? 'book' : 'plan';
  if (days < 0)
    return [
      [
        level,
        `oil ${-days} ${days === -1 ? 'day' : 'days'} past due${inputs.chancePastNow >= surelyPast ? '' : `, past it in ${casesWords(inputs.chancePastNow)}`}`,
      ],
    ];
  return [[level, days === 0 ? 'oil due today' : `oil due in ${days} ${days === 1 ? 'day' : 'days'}`]];
}

function failureReason(inputs: CallInputs, settings: Settings): [Call, string][] {
  const chance = inputs.failureProbability;
  if (chance === null) return [['watch', 'the chance of a timing-drive failure is not known']];
  if (chance < settings.watchFailureProbability) return [];
  const level: Call =
    chance >= settings.bookFailureProbability
      ? 'book'
      : chance >= settings.planFailureProbability
        ? 'plan'
        : 'watch';
  return [
    [level, `chance of a timing-drive failure ${chanceWords(chance)} ${horizonWords(settings.horizonDays)}`],
  ];
}
