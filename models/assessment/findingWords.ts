import type { FindingKind } from '../schema/finding.ts';

const measured: Partial<Record<FindingKind, readonly [name: string, unit: string]>> = {
  phase_deviation_crank_deg: ['phase deviation', '° of the crank'],
  start_rattle_s: ['start rattle', ' s'],
  hot_idle_pressure_kpa: ['hot idle pressure', ' kPa'],
  chain_elongation_percent: ['chain elongation', ' %'],
  oil_level_low_l: ['oil level low', ' L'],
};

/**
 * A finding with its value as people read it; a value that is no number stands as it was written.
 * @param value as recorded; null = none
 * @returns e.g. "start rattle: 6.5 s", "cover view: moderate"
 */
export function findingWords(finding: FindingKind, value: string | null): string {
  const [name, unit] = measured[finding] ?? [finding.replaceAll('_', ' '), ''];
  if (value === null) return `${name}: no value`;
  return `${name}: ${value}${/^-?\d+(?:\.\d+)?$/.test(value.trim()) ? unit : ''}`;
}
