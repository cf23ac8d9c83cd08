import { orderItems } from '../cards/cardItems.ts';
import { coefficientValue } from '../decisions/coefficientValue.ts';
import type { DueJob } from '../decisions/shop/shopInputs.ts';
import { dayFromIso, isoFromDay } from '../schema/day.ts';
import type { ShopJob } from '../schema/shopPlan.ts';
import { seenCodes, type SeenCode } from '../wear/codeEvidence.ts';
import type { Renewal } from '../wear/states.ts';
import type { DueSetting } from './dueWorkSetting.ts';
import { jobHours } from './jobHours.ts';
import type { UnitView } from './unitView.ts';

const sets: readonly Renewal['part'][] = ['timing_set', 'belt', 'engine'];

/**
 * Single jobs on phasers and their control solenoids that signs ask for, cheapest first as a shop goes about it: a circuit
 * code or a screen blocked from `shop.solenoid_blocked_share` on asks for the solenoid; a phaser code asks for a look at
 * the screens, and when it came back after the solenoid was renewed or the screen cleaned, or stands beside screens that
 * were found clear, for the phaser. A sign ends with the part that it speaks of, or when it is stale.
 * @returns at most one job, none for engines known to have no phaser. Source: common practice, no source.
 */
export function dueSigns(view: UnitView, setting: DueSetting): DueJob[] {
  if (view.history.engine?.phasers === 0) return [];
  const found = solenoidSign(view, setting) ?? phaserSign(view, setting);
  return found === null ? [] : [signJob(view, found, setting)];
}

interface Sign {
  readonly job: ShopJob;
  readonly words: string;
  readonly sinceDay: number;
}

/** Codes of one group that stand: seen after every renewal that ends them, and not stale. */
function standingCodes(
  { history, states }: UnitView,
  group: SeenCode['entry']['group'],
  endedBy: readonly Renewal['part'][],
  { asOfDay, faultCodes, coefficients }: DueSetting,
): SeenCode[] {
  const ended = lastRenewal(states.renewals, endedBy);
  return seenCodes(history, faultCodes, asOfDay)
    .filter(
      ({ day, entry }) =>
        entry.group === group && day > ended && day >= asOfDay - coefficients['failure.evidence_days'],
    )
    .sort((a, b) => a.day - b.day);
}

const lastRenewal = (renewals: readonly Renewal[], parts: readonly Renewal['part'][]): number =>
  renewals.reduce((last, { part, day }) => (parts.includes(part) ? Math.max(last, day) : last), -Infinity);

const onDay = (day: number): string => `on ${isoFromDay(day)}`;

function solenoidSign(view: UnitView, setting: DueSetting): Sign | null {
  const ends = ['oil_control_solenoid', 'phaser', ...sets] as const;
  const circuit = standingCodes(view, 'actuator_circuit', ends, setting).at(-1);
  if (circuit !== undefined)
    return {
      job: 'oil_control_solenoid',
      words: `control solenoid: wiring and coil first, then renew it (${circuit.entry.code} ${onDay(circuit.day)})`,
      sinceDay: circuit.day,
    };
  const look = lastScreen(view, ['screen', ...ends], setting);
  const least = coefficientValue(setting.coefficients, 'shop.solenoid_blocked_share');
  if (look === null || look.share < least) return null;
  return {
    job: 'oil_control_solenoid',
    words: `control solenoid: its screen was ${Math.round(100 * look.share)} % blocked ${onDay(look.day)}`,
    sinceDay: look.day,
  };
}

/** The last look at a screen since what ends it. */
function lastScreen(
  { history, states }: UnitView,
  endedBy: readonly Renewal['part'][],
  { asOfDay, coefficients }: DueSetting,
): { readonly day: number; readonly share: number } | null {
  const ended = lastRenewal(states.renewals, endedBy);
  let last: { day: number; share: number } | null = null;
  for (const { finding, foundOn, value } of history.findings) {
    const [day, share] = [dayFromIso(foundOn), Number(value)];
    if (finding !== 'screen_blocked_share' || value === null || !Number.isFinite(share)) continue;
    if (day > asOfDay || day <= ended || day < asOfDay - coefficients['failure.evidence_days']) continue;
    if (last !== null && day < last.day) continue;
    last = { day, share };
  }
  return last;
}

function phaserSign(view: UnitView, setting: DueSetting): Sign | null {
  const codes = standingCodes(view, 'phaser', ['phaser', ...sets], setting);
  const newest = codes.at(-1);
  if (newest === undefined) return null;
  const cured = lastRenewal(view.states.renewals, ['oil_control_solenoid', 'screen']);
  const words = `${newest.entry.code} ${onDay(newest.day)}`;
  if (codes[0].day <= cured)
    // the cure stands until the code shows again
    return newest.day > cured
      ? {
          job: 'phaser',
          words: `renew the phasers: ${words}, again after the solenoid or its screen was seen to`,
          sinceDay: newest.day,
        }
      : null;
  const look = lastScreen(view, ['phaser', ...sets], setting);
  if (look !== null && look.day >= codes[0].day)
    return {
      job: 'phaser',
      words: `renew the phasers: ${words}, with screens found ${Math.round(100 * look.share)} % blocked`,
      sinceDay: newest.day,
    };
  return {
    job: 'screen_look',
    words: `look at the oil control screens first: ${words}`,
    sinceDay: newest.day,
  };
}

function signJob(
  { history, failure }: UnitView,
  { job, words, sinceDay }: Sign,
  { asOfDay, oilServiceHours, coefficients }: DueSetting,
): DueJob {
  const { engine, unit } = history;
  const window = coefficientValue(coefficients, 'shop.renewal_window_days');
  const bill =
    (engine?.unplannedCostCents ?? 0) +
    (engine?.unplannedDowntimeDays ?? 0) * (engine?.downtimeCostPerDayCents ?? 0);
  const daily = ((failure?.probability ?? 0) * bill) / 365;
  return {
    jobId: `${unit.unitNumber}/${job}/sign-${isoFromDay(sinceDay)}`,
    unitNumber: unit.unitNumber,
    job,
    words,
    hours: jobHours(job, engine, oilServiceHours, coefficients),
    skill: job === 'phaser' ? 'timing' : null,
    items: orderItems(engine, job),
    notBeforeDay: null,
    earliestDay: asOfDay,
    medianDay: Math.max(asOfDay, sinceDay + window),
    latestDay: Math.max(asOfDay, sinceDay + 2 * window),
    latenessCentsPerDay: Math.round(
      Math.max(coefficientValue(coefficients, 'shop.overdue_least_cents'), 0.5 * daily),
    ),
    earlinessCentsPerDay: 0,
  };
}
