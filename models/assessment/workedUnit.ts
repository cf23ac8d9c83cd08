import type { UnitTimeline } from '../oil/charge.ts';
import type { PooledDuty } from '../oil/dutyPool.ts';
import { buildTimeline } from '../oil/usageTimeline.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { Settings } from '../schema/settings.ts';
import type { FillOf } from '../wear/segments.ts';
import { fillReader, fillsOfUnit, type FillReader } from './fillsOfUnit.ts';
import type { Models } from './models.ts';

/** One unit with its time axis and its oil, before its states are worked out. */
export interface WorkedUnit {
  readonly history: UnitHistory;
  readonly timeline: UnitTimeline;
  readonly fillOf: FillOf;
  readonly readFill: FillReader;
}

/**
 * Works units through to their time axis and oil.
 * @param pooled what comparable units tell of duty
 * @param asOfDay days since 1970-01-01
 */
export function unitWorker(
  pooled: PooledDuty,
  { oilCatalog, coefficients }: Models,
  settings: Settings,
  asOfDay: number,
): (history: UnitHistory) => WorkedUnit {
  const readFill = fillReader(oilCatalog, coefficients);
  return (history) => ({
    history,
    timeline: buildTimeline(history, pooled, coefficients, settings, asOfDay),
    fillOf: fillsOfUnit(history, readFill, coefficients),
    readFill,
  });
}
