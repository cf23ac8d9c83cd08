import { fillCeiling, simulateDraw, simulationState } from './simulationDraw.ts';
import type { SimulatedPlan, SimulationInputs } from './simulationTypes.ts';

/**
 * Simulates the fleet month-free: draw d fixes parameters and use for the whole fleet; each part has a unit-exponential
 * threshold, and fails when its cumulative hazard reaches it. All plans see the same thresholds, costs and use (common
 * random numbers). A part whose hazard at the end can not reach its threshold is passed over after one comparison, which
 * leaves the distribution exact. One failure a unit is counted.
 * @param inputs see {@link SimulationInputs}; cents, months
 * @returns the base (running everything) and one entry a plan
 * @throws RangeError when draws or months are no whole numbers from 1
 * Source: inversion of the cumulative hazard, common random numbers (Glasserman, Monte Carlo Methods in Financial
 * Engineering, 2003, chapters 2 and 4).
 */
export function simulateFleet(inputs: SimulationInputs): {
  base: SimulatedPlan;
  plans: readonly SimulatedPlan[];
} {
  const { units, draws, months } = inputs;
  for (const [name, value] of Object.entries({ draws, months }))
    if (!(Number.isInteger(value) && value >= 1))
      throw new RangeError(`${name} must be a whole number from 1, got ${value}`);
  const state = simulationState(inputs);
  const parameterDraws = units.reduce((most, unit) => Math.max(most, unit.risk.draws), 1);
  for (let parameter = 0; parameter < Math.min(parameterDraws, draws); parameter++) {
    fillCeiling(state, parameter);
    for (let draw = parameter; draw < draws; draw += parameterDraws) simulateDraw(state, parameter, draw);
  }
  for (const plan of state.plans) addBase(plan, state.base);
  return { base: state.base, plans: state.plans };
}

/** Turns a plan's differences from the base into its own values. */
function addBase(plan: SimulatedPlan, base: SimulatedPlan): void {
  const draws = base.failures.length;
  for (const field of ['failures', 'planned', 'unplanned', 'balance'] as const)
    for (let draw = 0; draw < draws; draw++) plan[field][draw]! += base[field][draw]!;
  for (let i = 0; i < plan.unplannedByMonth.length; i++)
    plan.unplannedByMonth[i]! += base.unplannedByMonth[i]!;
  for (let month = 0; month < plan.plannedByMonth.length; month++) plan.plannedByMonth[month]! /= draws;
}
