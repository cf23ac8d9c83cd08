import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import type { Evidence } from './evidence.ts';
import { codeText } from './faultCode.ts';
import type { FaultCode, FaultCodes, FaultGroup } from './faultCode.ts';
import { chainOf, phaserOf } from './evidenceSetting.ts';
import type { EvidenceSetting } from './evidenceSetting.ts';
import type { Renewal } from './states.ts';

/** A code on a day with what the catalog says of it. */
export interface SeenCode {
  readonly day: number;
  readonly entry: FaultCode;
  readonly recordId: number;
}

/** The codes of a unit that the catalog knows, up to a day. */
export function seenCodes(
  history: UnitHistory,
  faultCodes: FaultCodes,
  asOfDay: number,
): readonly SeenCode[] {
  const seen: SeenCode[] = [];
  for (const code of history.codes) {
    const entry = faultCodes.get(codeText(code.code) ?? '');
    const day = dayFromIso(code.seenOn);
    if (entry !== undefined && day <= asOfDay) seen.push({ day, entry, recordId: code.source.id });
  }
  return seen;
}

/**
 * Whether a sensor or circuit code near a code explains it better than wear does. A crank sensor code explains any
 * correlation code; a cam sensor or actuator circuit code one of its own bank.
 */
export function electricalBeside(
  code: SeenCode,
  all: readonly SeenCode[],
  groups: readonly FaultGroup[],
  coefficients: Coefficients,
): boolean {
  const days = coefficients['evidence.code_days'];
  return all.some(
    (other) =>
      groups.includes(other.entry.group) &&
      Math.abs(other.day - code.day) <= days &&
      (other.entry.bank === null || code.entry.bank === null || other.entry.bank === code.entry.bank),
  );
}

/**
 * Codes as evidence on chain and phaser: the first of a kind on each bank until the part is renewed, and, on units whose
 * codes are read, the absence of any as weak evidence. Repeats of a code that still stands tell nothing new.
 */
export function codeEvidence(
  seen: readonly SeenCode[],
  renewals: readonly Renewal[],
  asOfDay: number,
  setting: EvidenceSetting,
): readonly Evidence[] {
  const found: Evidence[] = [];
  if (setting.chainLimit !== null) addKind('chain_phase', seen, renewals, asOfDay, setting, found);
  if (setting.hasPhaser) addKind('phaser', seen, renewals, asOfDay, setting, found);
  return found;
}

function addKind(
  group: 'chain_phase' | 'phaser',
  seen: readonly SeenCode[],
  renewals: readonly Renewal[],
  asOfDay: number,
  setting: EvidenceSetting,
  found: Evidence[],
): void {
  const c = setting.coefficients;
  const renewed = renewals
    .filter(
      ({ part }) => part === 'timing_set' || part === 'engine' || (group === 'phaser' && part === 'phaser'),
    )
    .map(({ day }) => day);
  const episodeOf = (day: number): number => renewed.filter((at) => at < day).length;
  const taken = new Set<string>();
  for (const code of [...seen].sort((a, b) => a.day - b.day || a.recordId - b.recordId)) {
    if (code.entry.group !== group) continue;
    const segment = setting.segmentAt(code.day);
    const key = `${episodeOf(code.day)} ${code.entry.bank ?? ''}`;
    if (segment < 0 || taken.has(key)) continue;
    const sensors = electricalBeside(code, seen, ['crank_sensor', 'cam_sensor'], c);
    const circuits = electricalBeside(code, seen, ['cam_sensor', 'actuator_circuit'], c);
    // the crank sensor is ruled out first: until then a correlation code says nothing of the chain
    if (group === 'chain_phase' && sensors) continue;
    taken.add(key);
    const low =
      group === 'chain_phase'
        ? c['evidence.code_false_chain']
        : circuits
          ? c['evidence.code_electrical_dilution']
          : c['evidence.code_false_phaser'];
    found.push({
      ...kindEvidence(group, segment, code.entry.bank),
      day: code.day,
      words: `code ${code.entry.code}: ${code.entry.words.toLowerCase()}`,
      recordId: code.recordId,
      teaches: 'unit',
      likelihood: { ...thresholdOf(group, setting), low, high: 1, present: true },
    });
  }
  const now = episodeOf(asOfDay + 1);
  const anyNow = seen.some((code) => code.entry.group === group && episodeOf(code.day) === now);
  const segment = setting.segmentAt(asOfDay);
  // where no code was ever read, none on record says nothing
  if (seen.length === 0 || anyNow || segment < 0) return;
  found.push({
    ...kindEvidence(group, segment, null),
    day: asOfDay,
    words: group === 'chain_phase' ? 'no correlation code on record' : 'no phaser code on record',
    recordId: null,
    teaches: 'unit',
    likelihood: { ...thresholdOf(group, setting), low: 0, high: c['evidence.code_recorded'], present: false },
  });
}

function thresholdOf(
  group: 'chain_phase' | 'phaser',
  { chainLimit, coefficients: c }: EvidenceSetting,
): { kind: 'seen'; at: number; sd: number } {
  if (group === 'phaser')
    return { kind: 'seen', at: c['evidence.code_phaser_limit'], sd: c['evidence.code_phaser_sd'] };
  const limit = chainLimit?.percent ?? c['evidence.chain_limit'];
  return {
    kind: 'seen',
    at: c['evidence.code_chain_limit'] * limit,
    sd: c['evidence.code_chain_sd'] * limit,
  };
}

function kindEvidence(
  group: 'chain_phase' | 'phaser',
  segment: number,
  bank: string | null,
): Pick<Evidence, 'segment' | 'state' | 'observed' | 'expect' | 'bank'> {
  return {
    segment,
    state: group === 'chain_phase' ? 'chain' : 'phaser',
    observed: null,
    bank,
    expect: (states) =>
      group === 'chain_phase' ? chainOf(states, segment, bank) : phaserOf(states, segment, bank),
  };
}
