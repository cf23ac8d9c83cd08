import { normalDraws, seededRandom } from '../numeric/random.ts';
import type { Risk } from './risk.ts';
import { drawLook, type DrawnLook } from './simulationLook.ts';
import { emptyPlan, recorder } from './simulationRecord.ts';
import type { PlannedAction, SimulatedUnit, SimulationInputs } from './simulationTypes.ts';

/** The use factor is cut at this many standard deviations, so that a failure can be ruled out before it is worked out. */
const mostUseSd = 3;

/** Everything one draw reads and writes, set up once so that no draw allocates. */
export type SimulationState = ReturnType<typeof simulationState>;

/** Sets up the arrays of a simulation. */
export function simulationState(inputs: SimulationInputs) {
  const { units, draws, months } = inputs;
  const parts = partsOf(units);
  const inSomePlan = new Uint8Array(units.length);
  const looks = new Map<number, PlannedAction>();
  for (const plan of inputs.plans)
    for (const action of plan) {
      inSomePlan[action.unit] = 1;
      if (action.findings !== undefined) looks.set(action.unit, action);
    }
  // what plans add to a draw has a stream of its own, so that running everything is the same beside any plan
  const planRandom = seededRandom(Math.floor(inputs.random() * 2 ** 31));
  return {
    inputs,
    parts,
    inSomePlan,
    /** the look of each unit that some plan looks at, and what it led to in this draw */
    looks,
    drawn: new Map<number, DrawnLook>(),
    planRandom,
    planNormal: normalDraws(planRandom),
    /** how far each unit's planned cost is from its mean in this draw, NaN = not drawn yet */
    spread: new Float64Array(units.length).fill(Number.NaN),
    /** index of each unit's action in each plan, −1 = none */
    actionAt: inputs.plans.map((plan) => {
      const at = new Int32Array(units.length).fill(-1);
      plan.forEach((action, index) => (at[action.unit] = index));
      return at;
    }),
    /** chance of each part reaching its end in this parameter draw at the most */
    ceiling: new Float64Array(parts.unit.length),
    reached: new Int32Array(parts.unit.length),
    uniforms: new Float64Array(parts.unit.length),
    /** month of failure when run, and under each plan; Infinity = not at all */
    runFails: new Float64Array(units.length).fill(Infinity),
    planFails: inputs.plans.map(() => new Float64Array(units.length).fill(Infinity)),
    base: emptyPlan(draws, months),
    plans: inputs.plans.map(() => emptyPlan(draws, months)),
    normal: normalDraws(inputs.random),
    record: recorder(inputs),
  };
}

/** Simulates the fleet once with one parameter draw and writes what happened into base and plans. */
export function simulateDraw(state: SimulationState, parameter: number, draw: number): void {
  const { inputs, reached, runFails, planFails, plans, parts, record, normal, drawn, spread } = state;
  const use = Math.exp(inputs.useLogSd * Math.max(-mostUseSd, Math.min(mostUseSd, normal())));
  const count = reachedParts(state);
  for (let c = 0; c < count; c++) {
    const u = failPart(state, c, parameter, use);
    // the parts of a unit stand together: the last one reached closes the unit
    if (c + 1 === count || parts.unit[reached[c + 1]!] !== u) closeUnit(state, u, draw);
  }
  for (const u of state.looks.keys()) if (!drawn.has(u)) lookAt(state, u);
  for (let p = 0; p < plans.length; p++)
    for (const action of inputs.plans[p]!) {
      const u = action.unit;
      // a unit that fails before its date is renewed by that failure
      if (planFails[p]![u]! < action.month) continue;
      if (Number.isNaN(spread[u]!)) spread[u] = state.planNormal();
      const found = action.findings === undefined ? undefined : drawn.get(u)?.outcome;
      record.spend(plans[p]!, draw, action.month, found ?? action, spread[u]!);
    }
  drawn.clear();
  spread.fill(Number.NaN);
  for (let c = 0; c < count; c++) {
    const u = parts.unit[reached[c]!]!;
    runFails[u] = Infinity;
    for (let p = 0; p < plans.length; p++) planFails[p]![u] = Infinity;
  }
}

/** Draws every part's threshold and keeps those that may be reached; most are passed over after one comparison. */
function reachedParts({ inputs, ceiling, reached, uniforms }: SimulationState): number {
  const { random } = inputs;
  let count = 0;
  for (let i = 0; i < ceiling.length; i++) {
    const uniform = random();
    if (uniform < ceiling[i]!) {
      reached[count] = i;
      uniforms[count++] = uniform;
    }
  }
  return count;
}

/** Month of failure of one part that may reach its threshold, when run and under each plan; gives back its unit. */
function failPart(state: SimulationState, c: number, parameter: number, use: number): number {
  const { inputs, parts, runFails } = state;
  const i = state.reached[c]!;
  const u = parts.unit[i]!;
  const { risk } = inputs.units[u]!;
  const own = parameter % risk.draws;
  const threshold = -Math.log1p(-state.uniforms[c]!);
  const run = risk.monthsTo(parts.part[i]!, own, threshold) / use;
  if (run < runFails[u]!) runFails[u] = run;
  if (state.inSomePlan[u] === 0) return u;
  for (let p = 0; p < inputs.plans.length; p++) {
    const at = state.actionAt[p]![u]!;
    if (at < 0) continue;
    const { month, effect, findings } = inputs.plans[p]![at]!;
    const time = timeUnder(risk, parts.part[i]!, own, threshold, use, run, {
      month,
      // if the look leads to a renewal; else the unit's end is set when it is closed
      effect: findings === undefined ? effect : 'renew',
    });
    if (time < state.planFails[p]![u]!) state.planFails[p]![u] = time;
  }
  return u;
}

/** Books a unit's failure, at one cost for base and plans; a plan is kept as its difference from the base. */
function closeUnit(state: SimulationState, u: number, draw: number): void {
  const { inputs, record, base, plans } = state;
  const unit = inputs.units[u]!;
  const run = state.runFails[u]!;
  if (run >= unit.months && state.inSomePlan[u] === 0) return;
  const normal = run < unit.months ? state.normal() : state.planNormal();
  const factor = Math.exp(inputs.failureLogSd * normal - inputs.failureLogSd ** 2 / 2);
  record.failure(base, draw, unit, run, factor);
  if (state.inSomePlan[u] === 0) return;
  const look = state.looks.has(u) ? lookAt(state, u) : null;
  for (let p = 0; p < plans.length; p++) {
    const at = state.actionAt[p]![u]!;
    if (at < 0) continue;
    // a look that leads to no renewal leaves the part in place: it fails as it would have, unless that is kept off
    if (look !== null && look.outcome.action !== 'renew' && inputs.plans[p]![at]!.findings !== undefined)
      state.planFails[p]![u] = look.keptOff ? Infinity : run;
    record.failure(plans[p]!, draw, unit, run, -factor);
    record.failure(plans[p]!, draw, unit, state.planFails[p]![u]!, factor);
  }
}

/** What the look at a unit leads to in this draw, the same in every plan. */
function lookAt(state: SimulationState, u: number): DrawnLook {
  const fails = state.runFails[u]! < state.inputs.units[u]!.months;
  const look = drawLook(state.looks.get(u)!.findings!, fails, state.planRandom);
  state.drawn.set(u, look);
  return look;
}

/** All parts of all units in a row: which unit each belongs to, and which part of it it is. */
function partsOf(units: readonly SimulatedUnit[]) {
  const unit = units.flatMap(({ risk }, u) => Array.from({ length: risk.parts }, () => u));
  const part = units.flatMap(({ risk }) => Array.from({ length: risk.parts }, (_, index) => index));
  return { unit: Int32Array.from(unit), part: Int32Array.from(part) };
}

/** Chance, by part, that the threshold is reached at all in this parameter draw, under the fastest use and any plan. */
export function fillCeiling(state: SimulationState, parameter: number): void {
  const { parts, actionAt, ceiling } = state;
  const { units, plans, useLogSd } = state.inputs;
  const fastest = Math.exp(mostUseSd * useLogSd);
  for (let i = 0; i < ceiling.length; i++) {
    const { risk, months } = units[parts.unit[i]!]!;
    const own = parameter % risk.draws;
    const part = parts.part[i]!;
    const end = months * fastest;
    const run = risk.hazard(part, own, end);
    let most = run;
    for (let p = 0; p < plans.length; p++) {
      const at = actionAt[p]![parts.unit[i]!]!;
      if (at < 0) continue;
      const action = plans[p]![at]!;
      const before = risk.hazard(part, own, Math.min(end, action.month * fastest));
      const after =
        action.effect === 'renew' || action.findings !== undefined
          ? risk.renewedHazard(part, own, end)
          : (run - before) * action.effect;
      most = Math.max(most, before + after);
    }
    ceiling[i] = -Math.expm1(-most);
  }
}

/** Month at which a part fails when something is done to it on the way. */
function timeUnder(
  risk: Risk,
  part: number,
  draw: number,
  threshold: number,
  use: number,
  run: number,
  action: Pick<PlannedAction, 'month' | 'effect'>,
): number {
  if (run < action.month) return run;
  const before = risk.hazard(part, draw, action.month * use);
  const left = Math.max(0, threshold - before);
  if (action.effect === 'renew') return action.month + risk.renewedMonthsTo(part, draw, left) / use;
  if (action.effect <= 0) return Infinity;
  return risk.monthsTo(part, draw, before + left / action.effect) / use;
}
