import { coefficientValue } from './coefficientValue.ts';
import type { BudgetInputs } from './budgetTypes.ts';
import type { PortfolioProblem, PortfolioUnit } from './portfolioItems.ts';
import type { PlannedAction, SimulatedUnit } from './simulationTypes.ts';
import type { UnitOption } from './unitOption.ts';
import { savesByWaiting, type UnitRecommendation } from './unitRecommendation.ts';

/** The portfolio of a budget case: options of unit u in the order of its portfolio options. */
export interface BudgetPortfolio {
  readonly problem: PortfolioProblem;
  readonly options: readonly (readonly UnitOption[])[];
}

const daysPerMonth = 365.25 / 12;

/**
 * Turns recommendations into the portfolio: each unit's options within the plan, worth their expected saving. A covered
 * unit, one without an estimate and one for which waiting beyond the plan is cheaper have no renewal to pay for, unless
 * they are on the must-do list.
 */
export function budgetPortfolio(
  inputs: BudgetInputs,
  recommendations: readonly UnitRecommendation[],
): BudgetPortfolio {
  const least = coefficientValue(inputs.coefficients, 'money.least_saving_cents');
  const years = Math.ceil(inputs.months / 12);
  const mustDo = new Map(inputs.mustDo?.map((entry) => [entry.unitNumber, entry.action ?? true]));
  const mustNot = new Map<string, true | string[]>();
  for (const { unitNumber, action } of inputs.mustNot ?? []) {
    const before = mustNot.get(unitNumber);
    if (action === undefined || before === true) mustNot.set(unitNumber, true);
    else mustNot.set(unitNumber, [...(before ?? []), action]);
  }
  const options = recommendations.map((entry) => {
    if (entry.judged === null) return [];
    if (mustDo.has(entry.unitNumber)) return entry.judged.options;
    if (entry.cover.covered) return [];
    const { judged } = entry;
    return judged.options.filter(
      (option) =>
        option.netCents >= Math.max(least, Number.EPSILON) && !savesByWaiting(judged, inputs.months, option),
    );
  });
  const units = recommendations.map((entry, u): PortfolioUnit => {
    const must = mustDo.get(entry.unitNumber);
    const not = mustNot.get(entry.unitNumber);
    return {
      unitNumber: entry.unitNumber,
      options: options[u]!.map((option) => ({
        action: option.action,
        year: Math.floor(option.month / 12),
        costCents: option.costCents,
        hours: option.hours,
        valueCents: option.netCents,
      })),
      ...(must === undefined ? {} : { mustDo: must }),
      ...(not === undefined ? {} : { mustNot: not }),
    };
  });
  return {
    options,
    problem: {
      units,
      budgetCentsByYear: inputs.centsByYear ?? Array.from({ length: years }, () => Infinity),
      hoursByYear: inputs.hoursByYear ?? Array.from({ length: years }, () => Infinity),
      totalBudgetCents: inputs.amountCents,
    },
  };
}

/** The units as the simulation takes them; one without an estimate or already gone can not fail. */
export function simulatedUnits(
  recommendations: readonly UnitRecommendation[],
  asOfDay: number,
): { units: readonly SimulatedUnit[]; place: Int32Array } {
  const units: SimulatedUnit[] = [];
  const place = new Int32Array(recommendations.length).fill(-1);
  recommendations.forEach(({ risk, judged, costs, cover }, u) => {
    if (risk === null || judged === null) return;
    place[u] = units.length;
    const coveredDays = cover.claimByDay === null ? Infinity : cover.claimByDay - asOfDay;
    units.push({
      risk,
      months: judged.months,
      failureCents: costs.failureCents + costs.failureDowntimeCents,
      coveredMonths: cover.covered ? coveredDays / daysPerMonth : 0,
      coveredCents: costs.failureDowntimeCents,
    });
  });
  return { units, place };
}

/** A choice of options as actions of the simulation. */
export function plannedActions(
  chosen: readonly (number | null)[],
  { options }: BudgetPortfolio,
  place: Int32Array,
): readonly PlannedAction[] {
  return chosen.flatMap((index, u): PlannedAction[] => {
    if (index === null || place[u]! < 0) return [];
    const option = options[u]![index]!;
    return [
      {
        unit: place[u]!,
        month: option.month,
        cents: option.costCents,
        otherCents: option.otherCents,
        effect: option.effect,
        ...(option.findings === undefined ? {} : { findings: option.findings }),
      },
    ];
  });
}
