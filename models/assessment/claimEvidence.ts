import type { UnitHistory } from '../schema/history.ts';

/** The records that a claim under cover would rest on, in words: oil care first, then what was seen. */
export function claimEvidence(history: UnitHistory): readonly string[] {
  const drains = history.services
    .filter(({ read }) => read.works.includes('oil_change'))
    .map(({ servicedOn }) => servicedOn);
  const list = [
    drains.length === 0
      ? 'no oil change is on record: a claim will ask for them'
      : `${drains.length} oil ${drains.length === 1 ? 'change' : 'changes'}, ${drains[0]} to ${drains[drains.length - 1]}`,
  ];
  if (history.samples.length > 0)
    list.push(`${history.samples.length} oil ${history.samples.length === 1 ? 'sample' : 'samples'}`);
  for (const { finding, foundOn } of history.findings.slice(-3))
    list.push(`${finding.replaceAll('_', ' ')} of ${foundOn}`);
  const codes = new Map(history.codes.map(({ code, seenOn }) => [code, seenOn]));
  for (const [code, on] of codes) list.push(`code ${code} of ${on}`);
  return list;
}
