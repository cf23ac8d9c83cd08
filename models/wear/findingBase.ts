import { dayFromIso } from '../schema/day.ts';
import type { Finding } from '../schema/finding.ts';
import type { Sourced } from '../schema/history.ts';
import type { Evidence } from './evidence.ts';
import { bankOf } from './renewals.ts';

/** What every piece of evidence from a finding has in common. */
export function findingBase(
  finding: Sourced<Finding>,
  segment: number,
): Pick<Evidence, 'day' | 'segment' | 'recordId' | 'bank' | 'teaches'> {
  return {
    day: dayFromIso(finding.foundOn),
    segment,
    recordId: finding.source.id,
    bank: bankOf(finding.bank),
    // a rattle is written down when it is heard
    teaches: finding.finding === 'start_rattle_s' ? 'unit' : 'looks',
  };
}
