import { dayFromIso } from '../schema/day.ts';
import type { Finding } from '../schema/finding.ts';
import type { Sourced, UnitHistory } from '../schema/history.ts';
import { elongationEvidence, phaseEvidence, rattleEvidence } from './chainEvidence.ts';
import type { SeenCode } from './codeEvidence.ts';
import type { Evidence } from './evidence.ts';
import type { EvidenceSetting } from './evidenceSetting.ts';
import type { FaultGroup } from './faultCode.ts';
import { coverEvidence, pressureEvidence, screenEvidence } from './sludgeEvidence.ts';

/** Codes that make a shop look inside. */
const askingGroups: readonly FaultGroup[] = ['chain_phase', 'phaser', 'pressure_low'];

/**
 * The findings of a unit as evidence; those outside the timeline or without a readable value are left out. A look that a
 * code asked for falls on worn engines: it speaks of its unit and teaches no family.
 * @param codes codes of the unit
 */
export function findingEvidence(
  history: UnitHistory,
  codes: readonly SeenCode[],
  setting: EvidenceSetting,
): readonly Evidence[] {
  const within = setting.coefficients['evidence.code_days'];
  const asked = (day: number): boolean =>
    codes.some(
      (code) => askingGroups.includes(code.entry.group) && day >= code.day && day - code.day <= within,
    );
  const found: Evidence[] = [];
  for (const finding of history.findings) {
    const segment = setting.segmentAt(dayFromIso(finding.foundOn));
    if (segment < 0) continue;
    const evidence = evidenceOf(finding, segment, setting);
    if (evidence === null) continue;
    found.push(asked(evidence.day) ? { ...evidence, teaches: 'unit' } : evidence);
  }
  return found;
}

function evidenceOf(finding: Sourced<Finding>, segment: number, setting: EvidenceSetting): Evidence | null {
  switch (finding.finding) {
    case 'cover_view':
      return coverEvidence(finding, segment, setting);
    case 'screen_blocked_share':
      return screenEvidence(finding, segment, setting);
    case 'phase_deviation_crank_deg':
      return phaseEvidence(finding, segment, setting);
    case 'chain_elongation_percent':
      return elongationEvidence(finding, segment, setting);
    case 'start_rattle_s':
      return rattleEvidence(finding, segment, setting);
    case 'hot_idle_pressure_kpa':
      return pressureEvidence(finding, segment, setting);
    default:
      return null;
  }
}
