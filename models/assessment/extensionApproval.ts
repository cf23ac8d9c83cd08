import type { BookInterval } from '../oil/bookInterval.ts';
import type { CondemningLimits } from '../oil/condemningLimits.ts';
import { limitsFor } from '../oil/condemningLimits.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { Finding } from '../schema/finding.ts';
import { findingShare } from '../wear/findingValue.ts';
import { fillNow } from './assessUnit.ts';
import type { JudgedSample } from './judgeSample.ts';
import { measurandWords } from './measurandWords.ts';
import { sampleTrend, trendAt, trended, trendWords, type SampleTrend } from './sampleTrend.ts';
import { notInOrder } from './standingApproval.ts';
import type { UnitView } from './unitView.ts';

/** Whether a longer interval may be approved, and what speaks for and against it. */
export interface ExtensionCheck {
  /** book distance of the unit's service class, km; null: not recorded */
  readonly bookKm: number | null;
  /** the chemical limit, km; null: not known */
  readonly mostKm: number | null;
  readonly refusals: readonly string[];
  readonly evidence: readonly string[];
}

/** A name has letters and is no yes or no. */
export function namesSomeone(text: string): boolean {
  return (
    /\p{L}{2,}/u.test(text) &&
    !/^(yes|no|true|false|ok|okay|none|unknown|n\/?a|me|admin|user)$/i.test(text.trim())
  );
}

/**
 * Checks whether an interval past the book may be approved: meters that agree, no stop, calibrated chemistry, samples
 * of the last year that are all in order and whose trend stays within the caution limits up to the distance asked for,
 * an inspection of the last year that is in order, and never past the chemical limit.
 * @param intervalKm distance asked for, km; null: only what stands against any longer interval
 * @returns refusals in words, none → it may be approved by a named person
 */
export function checkExtension(
  view: UnitView,
  intervalKm: number | null,
  limits: CondemningLimits,
  c: Coefficients,
): ExtensionCheck {
  const { timeline, states, oil, history, samples } = view;
  const refusals: string[] = [];
  const evidence: string[] = [];
  const bookKm = bookKmOf(view.ownBook, timeline.duty.severe, c);
  const mostKm = oil?.assessment.chemicalLimitKm ?? null;
  if (timeline.metersDisagree)
    refusals.push('odometer and engine hours disagree: no interval may be lengthened');
  if (states.stops.length > 0) refusals.push('direct evidence calls for a stop: clear it first');
  if (bookKm === null) refusals.push("the maker's interval of this engine is not recorded");
  if (mostKm === null) refusals.push('the chemical limit of the oil is not known for this unit');
  const fromDay = timeline.asOfDay - c['approval.recent_days'];
  const least = c['approval.least_distance_share'] * (bookKm ?? 0);
  const recent = samples.filter(
    ({ sample, sampled }) =>
      dayFromIso(sample.sampledOn) > fromDay &&
      sampled !== null &&
      sampled.oilKm !== null &&
      sampled.oilKm >= least,
  );
  if (recent.length < c['approval.least_samples'])
    refusals.push(
      `${recent.length} of ${c['approval.least_samples']} samples there: of the last ${c['approval.recent_days']} days, with at least ${Math.round(least)} km on the oil`,
    );
  else evidence.push(`samples of ${recent.map(({ sample }) => sample.sampledOn).join(', ')}`);
  // every sample of the time counts against, whatever its oil had run
  for (const judged of samples)
    if (dayFromIso(judged.sample.sampledOn) > fromDay) {
      const reason = notInOrder(judged);
      if (reason !== null) refusals.push(`sample of ${judged.sample.sampledOn}: ${reason}`);
    }
  const inspection = newestInspection(history.findings, fromDay, timeline.asOfDay);
  if (inspection === null)
    refusals.push(`no look under the cover or at the screen in the last ${c['approval.recent_days']} days`);
  else if (!inspectionInOrder(inspection, c))
    refusals.push(`${inspectionWords(inspection)} of ${inspection.foundOn} is not in order`);
  else evidence.push(`${inspectionWords(inspection)} of ${inspection.foundOn}`);
  const trends = trended.flatMap((measurand) => sampleTrend(view, recent, measurand, c) ?? []);
  if (trends.length > 0) evidence.push(`trend: ${trends.map(trendWords).join('; ')}`);
  if (intervalKm !== null) {
    if (bookKm !== null && intervalKm <= bookKm)
      refusals.push(
        `${intervalKm} km is not longer than the book's ${Math.round(bookKm)} km: no approval is needed`,
      );
    if (mostKm !== null && intervalKm > mostKm)
      refusals.push(`${intervalKm} km is past the chemical limit of ${Math.round(mostKm)} km`);
    refusals.push(...trendRefusals(view, recent, trends, intervalKm, limits));
  }
  return { bookKm, mostKm, refusals, evidence };
}

/** Book distance of the service class, km; a missing severe one is the normal one times a stated factor. */
export function bookKmOf(book: BookInterval, severe: boolean, c: Coefficients): number | null {
  const { intervalKm, severeIntervalKm } = book;
  if (!severe) return intervalKm;
  if (severeIntervalKm !== null)
    return intervalKm === null ? severeIntervalKm : Math.min(intervalKm, severeIntervalKm);
  return intervalKm === null ? null : intervalKm * c['oil.severe_book_factor'];
}

function newestInspection(findings: readonly Finding[], fromDay: number, asOfDay: number): Finding | null {
  const looks = findings.filter(({ finding, foundOn }) => {
    const day = dayFromIso(foundOn);
    return (
      (finding === 'cover_view' || finding === 'screen_blocked_share') && day > fromDay && day <= asOfDay
    );
  });
  return looks.reduce<Finding | null>(
    (newest, look) => (newest === null || look.foundOn >= newest.foundOn ? look : newest),
    null,
  );
}

function inspectionInOrder({ finding, value }: Finding, c: Coefficients): boolean {
  if (finding === 'cover_view') return /^\s*(clean|light)\b/i.test(value ?? '');
  const share = findingShare(value);
  return share !== null && share <= c['approval.screen_blocked_share'];
}

const inspectionWords = ({ finding, value }: Finding): string =>
  `${finding === 'cover_view' ? 'view under the cover' : 'screen, blocked share'} ${value ?? 'without a value'}`;

/** What would pass its caution limit before the distance by its trend from sample to sample. */
function trendRefusals(
  view: UnitView,
  recent: readonly JudgedSample[],
  trends: readonly SampleTrend[],
  intervalKm: number,
  limits: CondemningLimits,
): string[] {
  const filled = fillNow(view.timeline, view.fillOf);
  // without an oil charge there is no chemical limit either, which refuses by itself
  if (filled === null) return [];
  const { fill, engine } = filled;
  const refusals: string[] = [];
  const days = intervalKm / Math.max(0.1, view.timeline.duty.kmPerDay);
  for (const { sample } of recent)
    if (sample.baseNumberMgKohG === null)
      refusals.push(`the sample of ${sample.sampledOn} has no base number`);
  for (const trend of trends) {
    const { measurand } = trend;
    const own = limitsFor(measurand, engine.fuelSystem, limits);
    const basis = measurand === 'baseNumber' ? 'share_of_fresh' : 'absolute';
    const limit = own.find((entry) => entry.basis === basis);
    if (limit === undefined) continue;
    const change = trendAt(trend, intervalKm, days);
    const falls = measurand === 'baseNumber';
    const then = falls ? Math.max(0, fill.baseNumber - change) : change;
    const caution = falls ? limit.caution * fill.baseNumber : limit.caution;
    if (falls ? then > caution : then < caution) continue;
    const { label, unit } = measurandWords[measurand];
    refusals.push(
      `${label} would come to ${Number(then.toPrecision(2))} ${unit} at ${intervalKm} km by the trend of ${trend.samples} ${trend.samples === 1 ? 'sample' : 'samples'}; the caution limit is ${Number(caution.toPrecision(2))}`,
    );
  }
  return refusals;
}
