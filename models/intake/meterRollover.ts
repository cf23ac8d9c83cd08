import { windowFor, type MeterMend, type Window } from './meterMends.ts';
import { canFollow, type MeterRule } from './meterSeries.ts';
import type { Stand } from './meterStands.ts';

/** What mechanical odometers of five and six digits begin again at. */
const turns = [100_000, 1_000_000] as const;

/**
 * The value that a meter of few digits would show had it not begun again at zero.
 * @param shown the value as its source wrote it, in the source's unit
 * @param factor stored value per unit of the source
 * @param window where the stored value would have to lie
 */
export function rolloverMend(shown: number, factor: number, window: Window): MeterMend | null {
  for (const turn of turns) {
    if (shown >= turn) continue;
    const times = Math.max(1, Math.ceil((window.low / factor - shown) / turn));
    const plain = shown + times * turn;
    if (plain * factor < window.low || plain * factor > window.high) continue;
    const digits = turn === 100_000 ? 'five' : 'six';
    return {
      how: 'rollover',
      value: Number((plain * factor).toPrecision(10)),
      words: `${shown} may be ${plain}: an odometer of ${digits} digits that began again after ${turn - 1}. For all later values at once, record a service with the work meter_replaced and the note old=${Math.round(turn * factor)} new=0`,
    };
  }
  return null;
}

/**
 * Whether two runs of values are one meter that began again at zero between them.
 * @param before the run before the day, in order
 * @param after the run after it
 * @param factor stored value per unit of the source
 * @param gain the unit's usual gain per day, null when not known
 */
export function isRollover(
  before: readonly Stand[],
  after: readonly Stand[],
  factor: number,
  gain: number | null,
  rule: MeterRule,
): boolean {
  const last = before[before.length - 1];
  const first = after[0];
  if (last === undefined || first === undefined || last.day > first.day || last.value <= first.value)
    return false;
  const window = windowFor(first.day, last, undefined, gain, rule);
  return turns.some((turn) => {
    const on = { ...first, value: first.value + turn * factor };
    return (
      window !== null && last.value < turn * factor && canFollow(last, on, rule) && on.value <= window.high
    );
  });
}
