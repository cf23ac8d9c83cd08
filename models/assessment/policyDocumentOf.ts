import { policyCase } from '../decisions/policyCase.ts';
import { samplingWorth } from '../decisions/samplingWorth.ts';
import { roughMoneyWords } from '../decisions/words.ts';
import type { OilCatalog } from '../oil/oilFill.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { AdoptedPolicy, DutyPolicyShown } from '../schema/policyDocument.ts';
import { dutyGroups, type DutyGroup } from './policyInputs.ts';
import { standingPolicy } from './standingPolicy.ts';
import type { UnitView } from './unitView.ts';

/** The policy of every duty group as it is shown. */
export function dutyPolicies(
  views: readonly UnitView[],
  oilCatalog: OilCatalog,
  serviceHours: number,
  adopted: readonly AdoptedPolicy[],
  asOf: string,
  currency: string,
  coefficients: Coefficients,
): DutyPolicyShown[] {
  return dutyGroups(views, oilCatalog, serviceHours, coefficients).map((group) =>
    shownPolicy(group, adopted, asOf, currency, coefficients),
  );
}

function shownPolicy(
  { inputs, unitNumbers, kmPerYear, assumptions }: DutyGroup,
  adopted: readonly AdoptedPolicy[],
  asOf: string,
  currency: string,
  c: Coefficients,
): DutyPolicyShown {
  const policy = policyCase([inputs], c).duties[0];
  const { current, recommended } = policy.centsPer1000Km;
  const worth = samplingWorth(
    inputs.oil,
    policy.recommendedIntervalKm,
    policy.curve.map(({ intervalKm }) => intervalKm),
    c['policy.sample_cents'],
    c['policy.sample_each_changes'],
    c['policy.sample_knowledge_share'],
  );
  const aYear = (centsPer1000Km: number): string =>
    `${roughMoneyWords((centsPer1000Km * kmPerYear) / 1000, currency)} a year`;
  return {
    duty: policy.duty,
    currentIntervalKm: policy.currentIntervalKm,
    bestIntervalKm: policy.bestIntervalKm,
    flatFromKm: policy.flatFromKm,
    flatToKm: policy.flatToKm,
    centsPer1000Km: policy.centsPer1000Km,
    bookIntervalKm: inputs.bookIntervalKm === null ? null : Math.round(inputs.bookIntervalKm),
    recommendedIntervalKm: policy.recommendedIntervalKm,
    bestIntervalRangeKm: policy.bestIntervalRangeKm,
    units: unitNumbers.length,
    kmPerYear: Math.round(kmPerYear),
    savingCentsPerYear: current === null ? null : Math.round(((current - recommended) * kmPerYear) / 1000),
    categories: policy.categories.map((effect) => ({ ...effect })),
    sampling: {
      worthCentsPer1000Km: Math.round(worth.worthCentsPer1000Km),
      costCentsPer1000Km: Math.round(worth.costCentsPer1000Km),
      pays: worth.pays,
      words: worth.pays
        ? `samples pay: they are expected to save about ${aYear(worth.worthCentsPer1000Km)} and cost about ${aYear(worth.costCentsPer1000Km)}; middle values`
        : `samples do not pay for the interval alone: they would save about ${aYear(worth.worthCentsPer1000Km)} and cost about ${aYear(worth.costCentsPer1000Km)}, middle values; what they find of fuel and coolant is not counted`,
    },
    curve: policy.curve.filter((_, index) => index % 4 === 0).map((point) => ({ ...point })),
    notes: [...policy.notes],
    assumptions: [...assumptions],
    adopted: standingPolicy(adopted, policy.duty, asOf),
  };
}
