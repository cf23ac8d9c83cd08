import type { Coefficients } from '../schema/coefficient.ts';
import { crossing } from './ageReplacement.ts';
import { coefficientValue } from './coefficientValue.ts';
import { valueOfLooking } from './valueOfLooking.ts';

/** What may be behind the signs of a unit. */
export const lookStates = ['restricted', 'worn', 'neither'] as const;
/** What can be done about it. */
export const lookActions = ['run', 'clean', 'renew'] as const;
export type LookAction = (typeof lookActions)[number];
/** Looks that can be taken before anything is renewed. */
export const looks = ['screen', 'cover', 'phase'] as const;
export type Look = (typeof looks)[number];

/** A unit before a look, over one horizon. */
export interface LookInputs {
  /** probability of each state: oil control screen restricted, chain or phaser worn, neither; sum 1 */
  readonly stateProbabilities: Readonly<Record<(typeof lookStates)[number], number>>;
  /** chance of failure over the horizon when run on, 0..1 */
  readonly failureProbability: number;
  /** chance of failure over the horizon after a renewal, 0..1 */
  readonly renewedFailureProbability: number;
  /** cost of a failure, downtime included, cents */
  readonly failureCents: number;
  /** cost of a planned renewal, downtime included, cents */
  readonly renewCents: number;
  /** labour, cents an hour */
  readonly labourCentsPerHour: number;
  /** what an hour costs in which the unit stands, cents; left out: 0 */
  readonly downtimeCentsPerHour?: number;
  /** what the engine has to look at and to clean; left out: everything */
  readonly fits?: LooksThatFit;
}

/** What an engine has to look at and to clean. */
export interface LooksThatFit {
  readonly looks: readonly Look[];
  /** there is an oil control screen and valve to clean */
  readonly clean: boolean;
}

/** One look with what it is worth and what each finding means. */
export interface RankedLook {
  readonly look: Look;
  /** what to do, in words */
  readonly words: string;
  /** cash, cents */
  readonly lookCents: number;
  /** the unit standing for the look's own time: it is taken at a visit that is due anyway, cents */
  readonly lookDowntimeCents: number;
  readonly lookHours: number;
  /** worth before its own cost, cents */
  readonly worthCents: number;
  readonly netCents: number;
  /** expected cost of looking first and acting on what is found, the look included, cents */
  readonly costCents: number;
  /** chance of failure over the horizon when acting on what is found */
  readonly failureProbability: number;
  /** chance of the first finding in each state, 0..1 */
  readonly firstIfState: readonly number[];
  /** what each finding leads to */
  readonly findings: readonly {
    readonly finding: string;
    readonly chance: number;
    readonly action: LookAction;
  }[];
}

/** All looks for a unit, the most worthwhile first, against acting without one. */
export interface LookRanking {
  readonly actionNow: LookAction;
  /** expected cost of each action without a look, cents */
  readonly actionCents: Readonly<Record<LookAction, number>>;
  /** chance of failure over the horizon after each action */
  readonly actionFailureProbability: Readonly<Record<LookAction, number>>;
  /** the same in each state */
  readonly failureIfState: Readonly<Record<LookAction, readonly number[]>>;
  /** cost of cleaning, cents; 0 where there is nothing to clean */
  readonly cleanCents: number;
  /** the unit standing for it, cents */
  readonly cleanDowntimeCents: number;
  readonly perfectCents: number;
  readonly looks: readonly RankedLook[];
}

const lookWords: Readonly<Record<Look, { words: string; findings: readonly [string, string] }>> = {
  screen: { words: 'pull the oil control screen', findings: ['screen restricted', 'screen clear'] },
  cover: { words: 'view under the oil filler and cam cover', findings: ['heavy deposits', 'clean'] },
  phase: { words: 'read the phase deviation', findings: ['deviation high', 'deviation normal'] },
};

/**
 * Ranks the looks for a unit. The chance of failure p is split over the states by their relative hazards r (catalog):
 * Σ_s π_s(1 − e^(−k·r_s)) = p fixes k; cleaning multiplies the hazard of each state, renewing puts all at the renewed chance.
 * Costs by action and state go into {@link valueOfLooking} with each look's sensitivities.
 * @param inputs probabilities 0..1, cents, hours
 * @param coefficients `look.*` of the catalog
 * @returns looks by net worth, cents; see the test for the worked three-state case
 * @throws RangeError when a probability lies outside 0..1, the states do not sum to 1, or a coefficient is missing
 * Source: Bayes' rule and value of information (Raiffa & Schlaifer 1961); coefficients are assumptions of the catalog.
 */
export function rankLooks(inputs: LookInputs, coefficients: Coefficients): LookRanking {
  const value = (id: string) => coefficientValue(coefficients, id);
  const prior = lookStates.map((state) => inputs.stateProbabilities[state]);
  const chance = failureByState(inputs, prior, value);
  const cleanCents = value('look.clean.hours') * inputs.labourCentsPerHour + value('look.clean.parts_cents');
  const standing = inputs.downtimeCentsPerHour ?? 0;
  const cleanDowntimeCents = value('look.clean.hours') * standing;
  const fits = inputs.fits ?? { looks, clean: true };
  // with nothing to clean, cleaning is running on under another name, and is never chosen
  if (!fits.clean) chance.clean = chance.run;
  const spend: Record<LookAction, number> = {
    run: 0,
    clean: fits.clean ? cleanCents + cleanDowntimeCents : 0,
    renew: inputs.renewCents,
  };
  const costCents = lookActions.map((action) =>
    chance[action].map((p) => spend[action] + p * inputs.failureCents),
  );
  const mean = (row: readonly number[]) => row.reduce((sum, x, state) => sum + x * prior[state]!, 0);
  const byAction = <T>(of: (action: LookAction, index: number) => T) =>
    Object.fromEntries(lookActions.map((action, index) => [action, of(action, index)])) as Record<
      LookAction,
      T
    >;
  const { perfectCents, actionNow } = valueOfLooking({
    prior,
    costCents,
    likelihood: [prior.map(() => 1)],
    lookCents: 0,
  });
  const ranked = looks
    .filter((look) => fits.looks.includes(look))
    .map((look): RankedLook => {
      const positive = lookStates.map((state) => value(`look.${look}.positive_if_${state}`));
      const lookHours = value(`look.${look}.hours`);
      const lookCents = lookHours * inputs.labourCentsPerHour + value(`look.${look}.parts_cents`);
      const lookDowntimeCents = lookHours * standing;
      const worth = valueOfLooking({
        prior,
        costCents,
        likelihood: [positive, positive.map((share) => 1 - share)],
        lookCents: lookCents + lookDowntimeCents,
      });
      const findings = worth.results.map((result, index) => ({
        finding: lookWords[look].findings[index]!,
        chance: result.chance,
        action: lookActions[result.action]!,
      }));
      const failureProbability = worth.results.reduce((sum, result) => {
        const row = chance[lookActions[result.action]!];
        return (
          sum + result.chance * result.posterior.reduce((part, share, state) => part + share * row[state]!, 0)
        );
      }, 0);
      return {
        look,
        words: lookWords[look].words,
        lookCents,
        lookDowntimeCents,
        lookHours,
        worthCents: worth.lookWorthCents,
        netCents: worth.netCents,
        costCents: worth.costNowCents - worth.netCents,
        failureProbability,
        firstIfState: positive,
        findings,
      };
    });
  return {
    actionNow: lookActions[actionNow]!,
    actionCents: byAction((_, index) => mean(costCents[index]!)),
    actionFailureProbability: byAction((action) => mean(chance[action])),
    failureIfState: chance,
    cleanCents: fits.clean ? cleanCents : 0,
    cleanDowntimeCents: fits.clean ? cleanDowntimeCents : 0,
    perfectCents,
    looks: ranked.sort((a, b) => b.netCents - a.netCents),
  };
}

/** Chance of failure by action and state, consistent with the unit's overall chance. */
function failureByState(
  inputs: LookInputs,
  prior: readonly number[],
  value: (id: string) => number,
): Record<LookAction, number[]> {
  for (const field of ['failureProbability', 'renewedFailureProbability'] as const)
    if (!(inputs[field] >= 0 && inputs[field] <= 1))
      throw new RangeError(`${field} must lie in 0..1, got ${inputs[field]}`);
  const hazards = lookStates.map((state) => value(`look.hazard.${state}`));
  const overall = (scale: number) =>
    prior.reduce((sum, share, state) => sum + share * -Math.expm1(-scale * hazards[state]!), 0);
  const top = 60 / Math.min(...hazards);
  const target = Math.min(inputs.failureProbability, overall(top));
  const scale = target <= 0 ? 0 : crossing((k) => overall(k) - target, 0, top);
  const cleaned = lookStates.map((state) => value(`look.clean.hazard_if_${state}`));
  return {
    run: hazards.map((hazard) => -Math.expm1(-scale * hazard)),
    clean: hazards.map((hazard, state) => -Math.expm1(-scale * hazard * cleaned[state]!)),
    renew: hazards.map(() => inputs.renewedFailureProbability),
  };
}
