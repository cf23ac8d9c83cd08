import type { DutyPicture } from '../oil/charge.ts';
import { oilCondition } from '../oil/condition.ts';
import type { OilEngine, OilFill, RateMultipliers } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dutyExposure } from './dutyExposure.ts';

/** Wear on one day; null = not applicable or not known. */
export interface WearNow {
  /** 10 − merit, 0 clean to 10 */
  readonly sludge: number;
  /** % */
  readonly chainPercent: number | null;
  /** 1 = median end of life */
  readonly phaserShare: number | null;
}

/** What a projection takes beside the wear it starts from. */
export interface ProjectionInputs {
  readonly duty: DutyPicture;
  readonly engine: OilEngine;
  readonly fill: OilFill;
  readonly rates: RateMultipliers;
  readonly coefficients: Coefficients;
  /** days since 1970-01-01 */
  readonly fromDay: number;
}

/**
 * Carries wear forward over whole oil charges at the present duty.
 * Sludge: S ← S + ΔS (1 − S/10); chain: ε ← ε + Δε; phaser: W ← W + a + b S, with the increments of the condition model.
 * @param intervalDays days between drains, above 0
 * @param horizonDays days to look ahead, 0 or more
 * @returns wear after the horizon; nothing shrinks
 */
export function projectWear(
  start: WearNow,
  inputs: ProjectionInputs,
  intervalDays: number,
  horizonDays: number,
): WearNow {
  let { sludge, chainPercent, phaserShare } = start;
  let day = 0;
  while (day < horizonDays - 0.5) {
    const days = Math.min(Math.max(intervalDays, 1), horizonDays - day);
    const { wear } = oilCondition(
      dutyExposure(inputs.duty, inputs.fromDay + day, days),
      inputs.engine,
      inputs.fill,
      inputs.rates,
      inputs.coefficients,
    );
    if (phaserShare !== null) phaserShare += wear.phaserClean + wear.phaserPerSludge * sludge;
    if (chainPercent !== null) chainPercent += wear.chainPercent;
    sludge = Math.min(10, sludge + wear.sludge * (1 - sludge / 10));
    day += days;
  }
  return { sludge, chainPercent, phaserShare };
}
