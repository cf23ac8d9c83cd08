import { useEffect, useRef } from 'preact/hooks';
import type { BudgetDocument } from '../../models/schema/budgetDocument.ts';
import type { MoneyQuery } from './moneyForm.tsx';
import { useRead } from './useRead.ts';

/** A case that is worked out on the server while the page asks how far it is; the last one stays until the next is ready. */
export interface BudgetReading {
  readonly data: BudgetDocument | null;
  /** in words, while it is worked on */
  readonly working: string | null;
  readonly error: string | null;
  readonly again: () => void;
}

const askAgainMs = 300;
const steps = [
  'the fleet is worked through',
  'each unit is judged',
  'the work is chosen',
  'other amounts are tried',
  'ten thousand futures are drawn',
];

/** @param query null: nothing is asked */
export function useBudget(query: MoneyQuery | null, version: unknown): BudgetReading {
  const read = useRead<'budgetWork'>(query === null ? null : '/api/budget/work', query ?? {}, version);
  const last = useRef<BudgetDocument | null>(null);
  const answer = read.data;
  if (query === null) last.current = null;
  else last.current = answer?.result ?? last.current;
  useEffect(() => {
    if (answer?.state !== 'working') return undefined;
    const timer = setTimeout(read.again, askAgainMs);
    return () => clearTimeout(timer);
  }, [answer]);
  const failed = answer?.state === 'failed' ? (answer.reason ?? 'The case could not be worked out.') : null;
  const waits = query !== null && read.error === null && failed === null;
  const step = Math.min(answer?.done ?? 0, steps.length - 1);
  return {
    data: last.current,
    working:
      waits && (read.loading || answer?.state === 'working')
        ? `step ${step + 1} of ${steps.length}, ${steps[step]}`
        : null,
    error: read.error?.message ?? failed,
    again: read.again,
  };
}
