import { namesSomeone } from '../../models/assessment/extensionApproval.ts';
import { dutyGroupName } from '../../models/assessment/standingPolicy.ts';
import type { AdoptedPolicy, PolicyDocument } from '../../models/schema/policyDocument.ts';
import type { Context } from '../context.ts';
import type { Store } from '../store/openStore.ts';
import { addPolicy, loadPolicies, withdrawPolicies } from '../store/policies.ts';
import { askFleet } from './askFleet.ts';

interface PolicyRequest {
  readonly duty: string;
  readonly intervalKm: number;
  readonly approvedBy: string;
  readonly note: string | null;
}

interface Refused {
  readonly code: string;
  readonly refusal: string;
}

const groupKey = (duty: string): string => dutyGroupName(duty).toLowerCase();

/** Records an interval for a duty group when it is within the group's book interval; else says why not. */
export async function adoptPolicy(
  context: Context,
  store: Store,
  { duty, intervalKm, approvedBy, note }: PolicyRequest,
): Promise<{ readonly adopted: AdoptedPolicy } | Refused> {
  if (!namesSomeone(approvedBy))
    return { code: 'no_name', refusal: `approvedBy must be the name of a person, got "${approvedBy}"` };
  // of the records as they are: an earlier answer may know another book
  const { text } = await askFleet(context, store, { name: 'policy' }, Number.POSITIVE_INFINITY);
  const { duties } = JSON.parse(text) as PolicyDocument;
  const group = duties.find((entry) => groupKey(entry.duty) === groupKey(duty));
  if (group === undefined)
    return {
      code: 'no_duty',
      refusal: `duty must be a duty group of the fleet, got "${duty}"; there are: ${duties.map((entry) => entry.duty).join(', ')}`,
    };
  const { bookIntervalKm } = group;
  if (bookIntervalKm === null)
    return {
      code: 'no_book',
      refusal: `intervalKm must be within the book interval, and none is recorded for the engines of duty ${group.duty}`,
    };
  if (intervalKm > bookIntervalKm)
    return {
      code: 'beyond_book',
      refusal: `intervalKm must be at most the book interval of ${bookIntervalKm} km for duty ${group.duty}, got ${intervalKm}; a longer interval is approved unit by unit, on samples and an inspection`,
    };
  return {
    adopted: addPolicy(store, {
      duty: group.duty,
      intervalKm,
      adoptedBy: approvedBy,
      adoptedOn: await context.asOf(store),
      note,
      madeAt: context.now(),
    }),
  };
}

/** Withdraws what stands for a duty group, in the name of a person. */
export async function withdrawPolicy(
  context: Context,
  store: Store,
  duty: string,
  withdrawnBy: string,
): Promise<{ readonly withdrawn: number } | Refused> {
  if (!namesSomeone(withdrawnBy))
    return { code: 'no_name', refusal: `withdrawnBy must be the name of a person, got "${withdrawnBy}"` };
  const ids = loadPolicies(store)
    .filter((policy) => groupKey(policy.duty) === groupKey(duty))
    .map(({ id }) => id);
  return { withdrawn: withdrawPolicies(store, ids, withdrawnBy, await context.asOf(store)) };
}
