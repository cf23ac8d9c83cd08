import { readFileSync } from 'node:fs';

interface PortfolioCase {
  options: { year: number; cost: number; hours: number; value: number }[][];
  money: number[];
  hours: number[];
  best: number;
}
interface Knapsack {
  capacity: number;
  weights: number[];
  values: number[];
  published: number;
  optimum: number;
  greedy: number;
}
interface DecisionValues {
  ageReplacement: { shape: number; failure: number; age: number; rate: number; share: number }[];
  renewals: Record<string, Record<string, number>>;
  discounted: Record<string, { age: number; present: number }>;
  runOrRenew: Record<string, { chance: number; run: number; renew: number; saving: number }>;
  assetReplacement: {
    profitByAge: number[];
    replacement: number;
    factor: number;
    value: number[];
    published: number[];
    publishedReplace: number[];
  };
  knapsacks: { p07: Knapsack; p08: Knapsack };
  budgets: { options: [number, number][][]; best: Record<string, number> };
  portfolios: PortfolioCase[];
  looks: {
    likelihood: number[][];
    costs: number[][];
    lookCost: number;
    cases: { prior: number[]; now: number; evpi: number; evsi: number; net: number }[];
  };
  countDistribution: {
    p: number[];
    pmf: number[];
    mean: number;
    variance: number;
    q: number[];
    meanOfWorstTenth: number;
    cost: { each: number; sd: number; mean: number; variance: number };
  };
  published: {
    jardineTsang: { rateByAge: Record<string, number> };
    hydraulicSeals: Record<
      | 'shape'
      | 'failureOverPlanned'
      | 'scaleHours'
      | 'ageHours'
      | 'ageShare'
      | 'costShare'
      | 'blockShare'
      | 'blockCostShare',
      number
    >;
    machines: Record<'A' | 'B', { cash: number[]; present: number; annual: number }>;
    economicLife: {
      price: number;
      rate: number;
      resale: number[];
      running: number[];
      annual: number[];
      bestYears: number;
    };
    drilling: { evpi: number; evsi: number; withSurvey: number };
    wildcat: { valueOfTest: number };
    delayTime: Record<
      'k' | 'mu' | 'inspection' | 'repair' | 'failure' | 'every' | 'rate' | 'without',
      number
    >;
    minimalRepair: { age: number; rate: number };
    block: { every: number; rate: number };
  };
}

/** Values of `tests/references/decisions/generate.py`; each block there names its source. */
export const reference = JSON.parse(
  readFileSync(new URL('../../references/decisions/decision-values.json', import.meta.url), 'utf8'),
) as DecisionValues;

/** Largest allowed relative difference as a check: relativeDifference(a, b) < 1e-6. */
export function relativeDifference(value: number, expected: number): number {
  return Math.abs(value - expected) / Math.abs(expected);
}
