import { seenCodes } from '../wear/codeEvidence.ts';
import type { FaultCodes } from '../wear/faultCode.ts';
import type { Renewal } from '../wear/states.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { FailureCovariate } from './failureCovariates.ts';

/** Direct evidence that stands from a day on, until a renewal that removes its cause or until it is stale. */
export interface Standing {
  readonly covariate: FailureCovariate;
  readonly fromDay: number;
  /** first day on which it does not stand any more */
  readonly toDay: number;
  readonly value: number;
}

const numberOf = (text: string | null): number | null => {
  const value = Number(text);
  return text === null || text.trim() === '' || !Number.isFinite(value) ? null : value;
};

/** How strongly a finding speaks, 0 = not at all. */
function findingStrength(
  kind: string,
  value: string | null,
  coefficients: Coefficients,
): { covariate: FailureCovariate; value: number } | null {
  const amount = numberOf(value);
  switch (kind) {
    case 'start_rattle_s':
      return amount !== null && amount >= coefficients['failure.rattle_from_s']
        ? { covariate: 'rattle', value: 1 }
        : null;
    case 'screen_blocked_share':
      return amount !== null && amount > 0 ? { covariate: 'screen_blocked', value: amount } : null;
    case 'phase_deviation_crank_deg':
      return amount !== null && Math.abs(amount) >= coefficients['failure.phase_from_deg']
        ? { covariate: 'phase_off', value: 1 }
        : null;
    case 'cover_view':
      return value === 'heavy' || value === 'severe'
        ? { covariate: 'heavy_cover', value: value === 'severe' ? 1.5 : 1 }
        : null;
    default:
      return null;
  }
}

/**
 * Direct evidence of a unit over time.
 * @param renewals of the unit, in order of day: evidence does not outlive the part it speaks of
 */
export function standingEvidence(
  history: UnitHistory,
  renewals: readonly Renewal[],
  faultCodes: FaultCodes,
  coefficients: Coefficients,
  asOfDay: number,
): readonly Standing[] {
  const staleDays = coefficients['failure.evidence_days'];
  const standing: Standing[] = [];
  const until = (day: number, endedBy: readonly Renewal['part'][]): number => {
    const cure = renewals.find((renewal) => renewal.day >= day && endedBy.includes(renewal.part));
    return Math.min(day + staleDays, cure?.day ?? Number.POSITIVE_INFINITY);
  };
  const sets = ['timing_set', 'engine', 'belt'] as const;
  const codes = seenCodes(history, faultCodes, asOfDay);
  for (const { day, entry } of codes) {
    const near = (groups: readonly string[]): boolean =>
      codes.some((other) => groups.includes(other.entry.group) && Math.abs(other.day - day) <= 30);
    if (entry.group === 'chain_phase' && !near(['crank_sensor', 'cam_sensor']))
      standing.push({ covariate: 'correlation_code', fromDay: day, toDay: until(day, sets), value: 1 });
    if (entry.group === 'phaser' && !near(['actuator_circuit']))
      standing.push({
        covariate: 'phaser_code',
        fromDay: day,
        toDay: until(day, [...sets, 'phaser', 'oil_control_solenoid']),
        value: 1,
      });
  }
  for (const finding of history.findings) {
    const day = dayFromIso(finding.foundOn);
    const strength = day > asOfDay ? null : findingStrength(finding.finding, finding.value, coefficients);
    if (strength === null) continue;
    const endedBy: Renewal['part'][] =
      strength.covariate === 'screen_blocked'
        ? ['screen', 'oil_control_solenoid', ...sets]
        : strength.covariate === 'rattle' || strength.covariate === 'phase_off'
          ? [...sets, 'phaser', 'tensioner_guides']
          : ['engine'];
    standing.push({ ...strength, fromDay: day, toDay: until(day, endedBy) });
  }
  return standing;
}
