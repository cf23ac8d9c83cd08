import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { PlanVisit, ShopPlan } from '../../models/schema/shopPlan.ts';
import { dayAndMonth, weekStart } from './dates.ts';
import { modelWords } from './modelWords.ts';
import { roundMoney } from './money.ts';
import { counted } from './words.ts';

type FirstDay = 'monday' | 'sunday';
const weekday = new Intl.DateTimeFormat(undefined, { weekday: 'short', timeZone: 'UTC' });

/** "Mon 6 Apr" in the reader's language. */
export function dayWords(iso: string): string {
  return `${weekday.format(new Date(dayFromIso(iso) * 86_400_000))} ${dayAndMonth(iso)}`;
}

/** "08:30" of minutes after midnight. */
export function clockTime(minute: number): string {
  return `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
}

/** First days of the weeks that a plan touches. */
export function planWeeks(plan: ShopPlan, firstDay: FirstDay): string[] {
  const from = weekStart(dayFromIso(plan.from), firstDay);
  const end = dayFromIso(plan.from) + 7 * plan.weeks;
  const last = plan.visits.reduce((day, visit) => Math.max(day, dayFromIso(visit.on) + 1), end);
  return Array.from({ length: Math.ceil((last - from) / 7) }, (_, week) => isoFromDay(from + 7 * week));
}

/** The days of a week on which a shop is open or a unit is in. */
export function weekDays(plan: ShopPlan, week: string, site: string): string[] {
  const first = dayFromIso(week);
  return Array.from({ length: 7 }, (_, day) => isoFromDay(first + day)).filter(
    (day) =>
      plan.loads.some((load) => load.on === day && isHere(load, site) && load.capacityHours > 0) ||
      plan.visits.some((visit) => isHere(visit, site) && visit.on <= day && visit.lastDay >= day),
  );
}

/** Whether something belongs to the site that is shown; '' = all. */
export function isHere(entry: { readonly site: string }, site: string): boolean {
  return site === '' || entry.site === site;
}

/** The jobs of a visit in words, each once, with how often. */
export function jobsOf(visit: PlanVisit): string {
  const counts = new Map<string, number>();
  for (const { words } of visit.jobDetails) counts.set(words, (counts.get(words) ?? 0) + 1);
  return [...counts]
    .map(([words, count]) => (count > 1 ? `${count} × ${modelWords(words)}` : modelWords(words)))
    .join(', ');
}

/** A part of the shelves as people read it: "timing set" of "timing_set". */
export function itemWords(item: string): string {
  return item.replaceAll('_', ' ');
}

/** How many visits, what does not fit, and how far from the best the plan can be. */
export function planSentence(plan: ShopPlan, currency: string): readonly [string, string, string] {
  const units = new Set(plan.notPlaced.map(({ unitNumber }) => unitNumber)).size;
  const price = plan.notPlaced.reduce((sum, { costCents }) => sum + costCents, 0);
  const left = Math.max(0, plan.objectiveCents - plan.boundCents);
  return [
    `${counted(plan.visits.length, 'visit')} in ${counted(plan.weeks, 'week')}`,
    plan.notPlaced.length === 0
      ? 'all that is due fits'
      : `${counted(plan.notPlaced.length, 'job')} of ${counted(units, 'unit')} ${plan.notPlaced.length === 1 ? 'does' : 'do'} not fit, which is expected to cost ${roundMoney(price, currency)}`,
    left < 100
      ? 'no other plan costs less'
      : `another plan could save ${roundMoney(left, currency)} of ${roundMoney(plan.objectiveCents, currency)} at most`,
  ];
}

/** What a driver is told. @param loanUnit what stands in meanwhile; null = nothing */
export function driverText(visit: PlanVisit, loanUnit: string | null): string {
  const where = visit.outsideShop ?? [visit.site, visit.bay].filter((part) => part !== null).join(', ');
  const ready =
    visit.lastDay === visit.on
      ? `at ${clockTime(visit.endMinute)}`
      : `on ${dayWords(visit.lastDay)} at ${clockTime(visit.endMinute)}`;
  return `Unit ${visit.unitNumber}: ${where}, ${dayWords(visit.on)} at ${clockTime(visit.startMinute)}, for ${jobsOf(visit)}. Planned to be ready ${ready}.${loanUnit === null ? '' : ` ${loanUnit} stands in meanwhile.`}`;
}

/** The same as a message that a mail program opens, without an addressee. */
export function mailOf(visit: PlanVisit, text: string): string {
  const subject = `Unit ${visit.unitNumber} in the shop on ${dayWords(visit.on)}`;
  return `mailto:?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(text)}`;
}
