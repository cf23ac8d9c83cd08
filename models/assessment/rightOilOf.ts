import type { OilCharge, UnitTimeline } from '../oil/charge.ts';
import { mixtureVerdict } from '../oil/mixtureVerdict.ts';
import type { OilCatalog } from '../oil/oilFill.ts';
import { rightOil, type RightOil } from '../oil/rightOil.ts';
import { gradesIn } from '../oil/viscosityGrade.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { FillOf } from '../wear/segments.ts';
import { oilEngineOf, requiredOilOf, type FillReader } from './fillsOfUnit.ts';

/** What is known of a unit and how its fills are read. */
interface FilledUnit {
  readonly history: UnitHistory;
  readonly timeline: UnitTimeline;
  readonly fillOf: FillOf;
  readonly readFill: FillReader;
  readonly oilCatalog: OilCatalog;
  readonly coefficients: Coefficients;
}

/** Judges the oil of the running charge against what the engine asks for, the climate, and what was topped up. */
export function rightOilOf(
  { timeline, history, fillOf, oilCatalog, readFill, coefficients }: FilledUnit,
  charge: OilCharge | null,
): RightOil | null {
  if (charge === null || charge.grade === null) return null;
  const required = requiredOilOf(history.engine);
  const known = readFill(charge.grade, charge.category, required);
  const judged = rightOil(
    known,
    required,
    timeline.duty.inferred.includes('ambient') ? null : timeline.duty.ambientByMonthC,
    oilCatalog,
    coefficients,
  );
  const others = charge.topUps.flatMap(({ grade, liters }) =>
    grade === null || grade === charge.grade || liters <= 0 ? [] : [{ grade, liters }],
  );
  const mixture = mixtureVerdict(
    known.grade,
    others,
    oilEngineOf(history.engine, coefficients).sumpLiters,
    fillOf(charge).fill.kv100,
    required.grade === null ? [] : gradesIn(required.grade, oilCatalog.grades),
    oilCatalog,
  );
  return mixture === null ? judged : { ...judged, verdicts: [...judged.verdicts, mixture] };
}
