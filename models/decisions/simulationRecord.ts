import type { SimulatedPlan, SimulatedUnit, SimulationInputs } from './simulationTypes.ts';

/** A plan in which nothing has happened yet. */
export function emptyPlan(draws: number, months: number): SimulatedPlan {
  return {
    failures: new Float64Array(draws),
    planned: new Float64Array(draws),
    unplanned: new Float64Array(draws),
    balance: new Float64Array(draws),
    plannedByMonth: new Float64Array(months),
    unplannedByMonth: new Float32Array(draws * months),
  };
}

/** Writes money into a plan; a negative factor takes a failure out again. */
export function recorder(inputs: SimulationInputs) {
  const { months, judgedMonths, monthlyRate, plannedLogSd } = inputs;
  const plannedShift = plannedLogSd ** 2 / 2;
  // money of a month is discounted to its middle
  const worth = Float64Array.from({ length: judgedMonths + 1 }, (_, month) =>
    Math.exp(-monthlyRate * (month + 0.5)),
  );
  return {
    failure(plan: SimulatedPlan, draw: number, unit: SimulatedUnit, at: number, factor: number): void {
      if (!(at < unit.months) || !(at < judgedMonths)) return;
      const month = Math.floor(at);
      const cents = factor * (at < unit.coveredMonths ? unit.coveredCents : unit.failureCents);
      plan.balance[draw]! += cents * worth[month]!;
      if (month >= months) return;
      plan.failures[draw]! += factor > 0 ? 1 : -1;
      plan.unplanned[draw]! += cents;
      plan.unplannedByMonth[draw * months + month]! += cents;
    },
    spend(
      plan: SimulatedPlan,
      draw: number,
      month: number,
      { cents: mean, otherCents }: { readonly cents: number; readonly otherCents: number },
      spread: number,
    ): void {
      const cents = mean * Math.exp(plannedLogSd * spread - plannedShift);
      plan.balance[draw]! += (cents + otherCents) * Math.exp(-monthlyRate * month);
      if (month >= months) return;
      plan.planned[draw]! += cents;
      plan.plannedByMonth[Math.floor(month)]! += cents;
    },
  };
}
