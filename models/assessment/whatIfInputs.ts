import { bookOf, runningCharge } from './assessOil.ts';
import type { Models } from './assessFleet.ts';
import { fillNow, type UnitView } from './assessUnit.ts';
import type { WhatIfInputs } from './whatIf.ts';

/** Gathers what a trial of one unit needs; null when there is no oil charge to start from. */
export function whatIfInputs(view: UnitView, models: Models): WhatIfInputs | null {
  const { timeline, states, history } = view;
  const filled = fillNow(timeline, view.fillOf);
  if (filled === null) return null;
  const charge = runningCharge(timeline);
  const { sludge, chainPercent, phaserShare } = states.now;
  return {
    asOfDay: timeline.asOfDay,
    duty: timeline.duty,
    engine: filled.engine,
    fill: filled.fill,
    grade: charge?.grade ?? history.engine?.requiredGrade ?? null,
    fills: models.fillsToTry(history),
    rates: states.rates,
    book: bookOf(history.engine),
    wear: {
      sludge: sludge?.value ?? 0,
      chainPercent: chainPercent?.value ?? null,
      phaserShare: phaserShare?.value ?? null,
    },
    soFar:
      charge === null || states.oilNow === null ? null : { state: states.oilNow, exposure: charge.exposure },
    coefficients: models.coefficients,
  };
}
