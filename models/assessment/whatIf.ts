import type { BookInterval } from '../oil/bookInterval.ts';
import type { DutyPicture } from '../oil/charge.ts';
import type { OilEngine, OilFill, OilState, Exposure, RateMultipliers } from '../oil/exposure.ts';
import { recommendedInterval } from '../oil/recommendedInterval.ts';
import type { GoverningLimit } from '../schema/assessment.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { comingMonths, withIdleShare } from './dutyExposure.ts';
import { projectWear, type WearNow } from './projectWear.ts';

/** Everything the models need to work on one unit elsewhere, as plain data. */
export interface WhatIfInputs {
  readonly asOfDay: number;
  readonly duty: DutyPicture;
  readonly engine: OilEngine;
  readonly fill: OilFill;
  readonly grade: string | null;
  /** grades to choose from with the oil that each stands for */
  readonly fills: readonly { readonly grade: string; readonly fill: OilFill }[];
  readonly rates: RateMultipliers;
  readonly book: BookInterval;
  readonly wear: WearNow;
  readonly soFar: { readonly state: OilState; readonly exposure: Exposure } | null;
  readonly coefficients: Coefficients;
}

/** What is tried; null = as it is. */
export interface WhatIfChange {
  /** of engine hours, 0..0.9 */
  readonly idleShare: number | null;
  /** interval that is kept from now on, km */
  readonly intervalKm: number | null;
  readonly grade: string | null;
}

/** What it would do. */
export interface WhatIfResult {
  readonly advisedKm: number;
  readonly advisedHours: number;
  readonly governing: GoverningLimit;
  /** the interval that was carried forward, km */
  readonly keptKm: number;
  /** wear after the years looked at */
  readonly later: WearNow;
}

/** How far what-if looks ahead, years. */
export const whatIfYears = 3;

/**
 * Runs the interval and wear models for a unit under another idle share, another interval or another grade.
 * @returns the interval that would be advised, and the wear after {@link whatIfYears} years at the interval kept
 */
export function whatIf(inputs: WhatIfInputs, change: WhatIfChange): WhatIfResult {
  const duty = change.idleShare === null ? inputs.duty : withIdleShare(inputs.duty, change.idleShare);
  const fill = inputs.fills.find((entry) => entry.grade === change.grade)?.fill ?? inputs.fill;
  const advice = recommendedInterval(
    {
      coming: comingMonths(duty, inputs.asOfDay),
      engine: inputs.engine,
      fill,
      rates: inputs.rates,
      book: inputs.book,
      severe: duty.severe,
    },
    inputs.coefficients,
  );
  const keptKm = change.intervalKm ?? advice.interval.distanceKm;
  const days = duty.kmPerDay > 0.1 ? keptKm / duty.kmPerDay : advice.interval.days;
  return {
    advisedKm: advice.interval.distanceKm,
    advisedHours: advice.interval.engineHours,
    governing: advice.governing,
    keptKm,
    later: projectWear(
      inputs.wear,
      {
        duty,
        engine: inputs.engine,
        fill,
        rates: inputs.rates,
        coefficients: inputs.coefficients,
        fromDay: inputs.asOfDay,
      },
      days,
      whatIfYears * 365.25,
    ),
  };
}
