import type { DutyRules } from './dutyRules.ts';
import { firstDayOf, lastDayOf, totalOn, type MeterSet } from './meterSet.ts';
import type { MeterSeries } from './meterSeries.ts';

/** Whether odometer and hour meters contradict each other or themselves, with the reasons in words. */
export interface MeterAgreement {
  readonly disagree: boolean;
  readonly reasons: readonly string[];
}

const windowDays = 730;

const whole = (value: number): string => String(Math.round(value));

/** Days on which both meters have a value of their own, or nearly: contradictions must not come from interpolation. */
function sharedDays(a: MeterSeries, b: MeterSeries, from: number): number[] {
  const days: number[] = [];
  let next = 0;
  for (const day of a.days) {
    if (day < from) continue;
    while (next < b.days.length && b.days[next] < day) next++;
    if (next < b.days.length && b.days[next] === day) days.push(day);
  }
  return days;
}

/**
 * Looks for contradictions in the last two years of records: engine hours faster than the clock, speeds that cannot be,
 * idle hours above engine hours, meters that fell back or jumped without a record of a replacement.
 * @param meters the unit's meters
 * @param hybrid a hybrid's distance says nothing against its engine hours
 */
export function meterAgreement(meters: MeterSet, hybrid: boolean, rules: DutyRules): MeterAgreement {
  const reasons: string[] = [];
  const { odometer, hours, idle, pto } = meters;
  const last = Math.max(
    odometer.days.length > 0 ? lastDayOf(odometer) : 0,
    hours.days.length > 0 ? lastDayOf(hours) : 0,
  );
  const from = last - windowDays;
  for (const [name, series] of [
    ['odometer', odometer],
    ['engine hours', hours],
  ] as const) {
    if (series.unrecordedBreaks.some((day) => day >= from))
      reasons.push(`${name} fell back or jumped for good without a recorded replacement`);
    if (series.dropped >= 3 && series.dropped > rules.disagreeShare * 2 * series.recorded)
      reasons.push(`${series.dropped} of ${series.recorded} ${name} values contradict the others`);
  }
  if (hours.days.length >= 2 && odometer.days.length >= 2 && !hybrid) {
    const shared = sharedDays(hours, odometer, Math.max(from, firstDayOf(hours)));
    let fastKm = 0;
    let allKm = 0;
    let slowHours = 0;
    let allHours = 0;
    let fastest = 0;
    for (let i = 1; i < shared.length; i++) {
      const between = (series: MeterSeries) =>
        series.days.length < 2 ? 0 : totalOn(series, shared[i]) - totalOn(series, shared[i - 1]);
      const km = between(odometer);
      const engine = between(hours);
      const driving = engine - Math.min(engine, between(idle)) - Math.min(engine, between(pto));
      allKm += km;
      allHours += engine;
      if (km > 50 && km > rules.fastSpeedKmh * (driving + 0.5)) {
        fastKm += km;
        fastest = Math.max(fastest, km / Math.max(0.1, driving));
      }
      const knowsIdle =
        idle.days.length >= 2 && lastDayOf(idle) >= shared[i] && firstDayOf(idle) <= shared[i - 1];
      if (knowsIdle && pto.days.length < 2 && driving > 20 && km < rules.slowSpeedKmh * driving)
        slowHours += driving;
    }
    if (fastKm > rules.disagreeShare * allKm)
      reasons.push(
        `${whole(fastKm)} km at impossible speeds by the hour meter (up to ${whole(Math.min(fastest, 9999))} km/h)`,
      );
    if (slowHours > rules.disagreeShare * 2 * allHours && slowHours > 50)
      reasons.push(`${whole(slowHours)} driving hours with hardly any distance`);
  }
  if (hours.days.length >= 2 && idle.days.length >= 2) {
    const start = Math.max(from, firstDayOf(hours), firstDayOf(idle));
    const end = Math.min(lastDayOf(hours), lastDayOf(idle));
    const engine = end > start ? totalOn(hours, end) - totalOn(hours, start) : 0;
    const idling = end > start ? totalOn(idle, end) - totalOn(idle, start) : 0;
    if (idling > 1.02 * engine + 5)
      reasons.push(`${whole(idling)} idle hours in ${whole(engine)} engine hours`);
  }
  return { disagree: reasons.length > 0, reasons };
}
