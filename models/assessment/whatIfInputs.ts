import { fillFrom } from '../oil/oilFill.ts';
import type { Models } from './models.ts';
import { fillNow } from './assessUnit.ts';
import type { UnitView } from './unitView.ts';
import { requiredOilOf } from './fillsOfUnit.ts';
import { freshOilQuestion, runningCharge, runningOilQuestion } from './oilQuestion.ts';
import type { WhatIfInputs } from './whatIf.ts';

/** Grades that a trial offers. */
const gradesToTry = ['0W-16', '0W-20', '5W-20', '5W-30', '10W-30', '5W-40', '15W-40'] as const;

/** Gathers what a trial of one unit needs; null when there is no oil charge to start from. */
export function whatIfInputs(view: UnitView, models: Models): WhatIfInputs | null {
  const { timeline, states, history } = view;
  const filled = fillNow(timeline, view.fillOf);
  if (filled === null) return null;
  const charge = runningCharge(timeline);
  const fresh = freshOilQuestion(timeline, states, view.book, filled, models.coefficients);
  const { sludge, chainPercent, phaserShare } = states.now;
  return {
    asOfDay: timeline.asOfDay,
    duty: timeline.duty,
    engine: filled.engine,
    fill: filled.fill,
    grade: charge?.grade ?? history.engine?.requiredGrade ?? null,
    fills: gradesToTry.map((grade) => ({
      grade,
      fill: fillFrom(
        grade,
        history.engine?.requiredCategory ?? null,
        requiredOilOf(history.engine),
        models.oilCatalog,
        models.coefficients,
      ).fill,
    })),
    rates: fresh.rates,
    book: view.book,
    wear: {
      sludge: sludge?.value ?? 0,
      chainPercent: chainPercent?.value ?? null,
      phaserShare: phaserShare?.value ?? null,
    },
    soFar: runningOilQuestion(fresh, charge, states, models.coefficients).soFar ?? null,
    coefficients: models.coefficients,
  };
}
