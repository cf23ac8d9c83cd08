import type { Coefficients } from '../schema/coefficient.ts';
import { coefficientValue } from './coefficientValue.ts';
import { monthlyRate } from './monthlyRate.ts';
import type { MoneyUnit, UnitCosts } from './moneyUnit.ts';
import { renewalTiming } from './renewalTiming.ts';
import { riskOf } from './risk.ts';
import type { UnitOption } from './unitOption.ts';
import type { JudgedUnit } from './unitOptions.ts';

/** One thing that the plan's saving hangs on, moved both ways with all else as it is. */
export interface TornadoBar {
  readonly cause: 'failure_cost' | 'planned_cost' | 'use' | 'life' | 'shape';
  readonly words: string;
  /** share by which it is moved either way */
  readonly swing: number;
  /** expected saving when it is lower, and when it is higher, whole cents */
  readonly atLowCents: number;
  readonly atHighCents: number;
}

/** A chosen option with what it rests on. */
export interface ChosenOption {
  readonly unit: MoneyUnit;
  readonly costs: UnitCosts;
  readonly judged: JudgedUnit;
  readonly option: UnitOption;
}

const causes: readonly (readonly [TornadoBar['cause'], string])[] = [
  ['failure_cost', 'cost of a failure'],
  ['planned_cost', 'cost of what is planned'],
  ['use', 'use of the units'],
  ['life', 'life of the parts'],
  ['shape', 'how steeply parts wear out'],
];

/** Parameter draws that a bar is averaged over; they are taken evenly from all. */
const mostDraws = 12;

/**
 * Sensitivity of a plan's expected saving: each cause is moved down and up by its share from the catalog and the saving
 * Σ (running − acting) is worked out again. Looks and cleanings avoid the same share of the running cost as before.
 * @param chosen options of the plan
 * @param coefficients `money.tornado.*`, `money.discount_rate`
 * @returns bars, the widest first, whole cents
 * @throws RangeError when a coefficient is missing
 * Source: one-at-a-time sensitivity, common practice.
 */
export function planTornado(
  chosen: readonly ChosenOption[],
  coefficients: Coefficients,
): readonly TornadoBar[] {
  const rate = monthlyRate(coefficients);
  const saving = (cause: TornadoBar['cause'], factor: number) =>
    Math.round(chosen.reduce((sum, entry) => sum + optionSaving(entry, cause, factor, rate), 0));
  const bars = causes.map(([cause, words]): TornadoBar => {
    const swing = coefficientValue(coefficients, `money.tornado.${cause}`);
    return {
      cause,
      words,
      swing,
      atLowCents: saving(cause, 1 - swing),
      atHighCents: saving(cause, 1 + swing),
    };
  });
  const width = (bar: TornadoBar) => Math.abs(bar.atHighCents - bar.atLowCents);
  return bars.sort((a, b) => width(b) - width(a));
}

function optionSaving(
  { unit, costs, judged, option }: ChosenOption,
  cause: TornadoBar['cause'],
  factor: number,
  monthlyRate: number,
): number {
  if (unit.risk === null) return 0;
  const at = (wanted: TornadoBar['cause']) => (cause === wanted ? factor : 1);
  const risk = riskOf(unit.risk, { life: at('life'), shape: at('shape') });
  const timingCosts = {
    plannedCents: (costs.plannedCents + costs.plannedDowntimeCents) * at('planned_cost'),
    failureCents: (costs.failureCents + costs.failureDowntimeCents) * at('failure_cost'),
    monthlyRate,
  };
  const draws = Math.min(mostDraws, risk.draws);
  let run = 0;
  let renew = 0;
  for (let i = 0; i < draws; i++) {
    const draw = Math.floor((i * risk.draws) / draws);
    const timing = renewalTiming(risk, draw, judged.months, timingCosts, at('use'));
    run += timing.run / draws;
    renew += timing.renewAt[option.month]! / draws;
  }
  if (option.effect === 'renew') return run - renew;
  const avoidedShare = judged.runCents.mid > 0 ? option.avoidedCents.mid / judged.runCents.mid : 0;
  const ownCents = option.avoidedCents.mid - option.netCents;
  return avoidedShare * run - ownCents * at('planned_cost');
}
