import type { AdoptedPolicy } from '../schema/policyDocument.ts';

/** The name of the duty group that a unit without a duty belongs to, too. */
export function dutyGroupName(duty: string | null): string {
  return duty?.trim() || 'not recorded';
}

/**
 * The newest interval adopted for a duty by a day and not withdrawn by it.
 * @param duty of the unit; names that differ in case alone are one
 * @param asOf ISO date; a withdrawal counts from its own day on
 * @returns null: none holds
 */
export function standingPolicy(
  policies: readonly AdoptedPolicy[],
  duty: string | null,
  asOf: string,
): AdoptedPolicy | null {
  const name = dutyGroupName(duty).toLowerCase();
  let newest: AdoptedPolicy | null = null;
  for (const policy of policies) {
    if (dutyGroupName(policy.duty).toLowerCase() !== name || policy.adoptedOn > asOf) continue;
    if (policy.withdrawnOn !== null && policy.withdrawnOn <= asOf) continue;
    if (newest === null || policy.id > newest.id) newest = policy;
  }
  return newest;
}
