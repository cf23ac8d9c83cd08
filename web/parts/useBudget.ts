import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import type { MoneyQuery } from './moneyForm.tsx';
import { useWork } from './useWork.ts';

const steps = [
  'the fleet is worked through',
  'each unit is judged',
  'the work is chosen',
  'other amounts are tried',
  'ten thousand futures are drawn',
];

/** A case with where its work stands, in words. */
export interface BudgetReading {
  readonly data: BudgetDocument | null;
  readonly working: string | null;
  readonly error: string | null;
  readonly again: () => void;
}

/** @param query null: nothing is asked */
export function useBudget(query: MoneyQuery | null, version: unknown): BudgetReading {
  const work = useWork<'budgetWork'>(query === null ? null : '/api/budget/work', query ?? {}, version);
  const step = Math.min(work.working?.done ?? 0, steps.length - 1);
  return {
    ...work,
    error: work.error?.message ?? null,
    working: work.working === null ? null : `step ${step + 1} of ${steps.length}, ${steps[step]}`,
  };
}
