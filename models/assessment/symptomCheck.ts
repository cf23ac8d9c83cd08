import { readCode } from '../intake/codeText.ts';
import { readFindingValue } from '../intake/findingValue.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { DeskEntry, DeskFinding, DeskQuestion, DeskUnit } from '../schema/deskEndpoints.ts';
import { coverViews, type FindingKind } from '../schema/finding.ts';
import { namesSomeone } from './extensionApproval.ts';

/** Parts that a finding speaks of; renewed later, they are no longer the ones that were looked at. */
const partsOf: Partial<Record<FindingKind, readonly string[]>> = {
  screen_blocked_share: ['screen', 'oil_control_solenoid', 'engine'],
  phase_deviation_crank_deg: ['timing_set', 'engine'],
  chain_elongation_percent: ['timing_set', 'engine'],
  start_rattle_s: ['timing_set', 'phaser', 'tensioner_guides', 'engine'],
};

const partWords: Readonly<Record<string, string>> = {
  screen: 'oil control screen was cleaned',
  oil_control_solenoid: 'oil control solenoid was renewed',
  timing_set: 'timing set was renewed',
  phaser: 'phaser was renewed',
  tensioner_guides: 'tensioner and guides were renewed',
  engine: 'engine was renewed',
};

const asCover = (cell: string): string | null =>
  coverViews.find((view) => view === cell.trim().toLowerCase()) ?? null;

/**
 * What has to be answered before an entry can be kept with its unit; the same in the browser and on the server.
 * Asked: a name, the form of codes, values that can not be meant (a share of 40), a day to come or before the unit or
 * the part was there, a phase deviation without a chain or without its geometry, and what was checked before clearing.
 * @param unit what is known of the unit
 * @param coefficients `evidence.pressure_minimum_kpa`, `evidence.rattle_lasting_s`
 * @returns questions by field; none: the entry can be kept
 */
export function entryQuestions(
  entry: DeskEntry,
  unit: DeskUnit,
  coefficients: Coefficients,
): readonly DeskQuestion[] {
  const questions: DeskQuestion[] = [];
  const ask = (field: string, code: string, message: string): void =>
    void questions.push({ field, code, message });
  const confirmed = new Set<string>(entry.confirmed);
  if (!namesSomeone(entry.technician))
    ask('technician', 'no_name', `Who found it? A name is needed, got "${entry.technician}".`);
  for (const code of entry.codes)
    if (readCode(code) === null)
      ask(
        'codes',
        'code_form',
        `"${code}" is no fault code: it is a letter P, B, C or U, a digit 0 to 3 and three more digits, such as P0016. Type it again, or take it out.`,
      );
  for (const { finding, value } of entry.findings) {
    const read = readFindingValue(finding, value, '.', asCover);
    if (typeof read !== 'string') ask(finding, read.code, sentence(read.message));
    if (finding === 'cleared')
      ask('cleared', 'cleared_alone', 'What ends a stop goes into the field for it, with what was checked.');
    if (finding !== 'phase_deviation_crank_deg') continue;
    if (unit.chainLimit === null)
      ask(
        finding,
        'phase_no_chain',
        'This engine has no timing chain: a phase deviation says nothing of it.',
      );
    else if (unit.drive === null && !confirmed.has('phase_geometry'))
      ask(
        finding,
        'phase_geometry',
        'Chain pitch, sprocket teeth and tight strand of this engine family are not on record, so the degrees can only be read with a typical drive and a wide error. Keep it so?',
      );
  }
  dayQuestions(entry, unit, confirmed, ask);
  clearingQuestions(entry, unit, coefficients, ask);
  if (entry.codes.length === 0 && entry.findings.length === 0 && entry.cleared === null)
    ask('findings', 'nothing', 'There is nothing to keep yet: enter a code or what was seen or measured.');
  return questions;
}

type Ask = (field: string, code: string, message: string) => void;

function dayQuestions(entry: DeskEntry, unit: DeskUnit, confirmed: ReadonlySet<string>, ask: Ask): void {
  const on = entry.foundOn ?? unit.asOf;
  if (dayFromIso(on) > dayFromIso(unit.asOf))
    ask('foundOn', 'date_future', `${on} is still to come: the records stand at ${unit.asOf}.`);
  if (unit.inServiceOn !== null && on < unit.inServiceOn)
    ask(
      'foundOn',
      'date_before_service',
      `Unit ${unit.unitNumber} went into service on ${unit.inServiceOn}: ${on} lies before that. Which day is right?`,
    );
  if (confirmed.has('before_renewal')) return;
  for (const { finding } of entry.findings) {
    const later = unit.renewals.find(
      (renewal) => renewal.on > on && (partsOf[finding] ?? []).includes(renewal.part),
    );
    if (later === undefined) continue;
    ask(
      finding,
      'before_renewal',
      `The ${partWords[later.part] ?? `${later.part.replaceAll('_', ' ')} was renewed`} on ${later.on}. A finding of ${on} speaks of the part before it. Keep it for that one?`,
    );
    return;
  }
}

/** Whether a finding is itself what raises a stop. */
function speaksAgainst({ finding, value }: DeskFinding, c: Coefficients): boolean {
  const read = readFindingValue(finding, value, '.', asCover);
  if (typeof read !== 'string') return false;
  if (finding === 'coolant_in_oil') return read === 'yes';
  if (finding === 'start_rattle_s') return Number(read) >= c['evidence.rattle_lasting_s'];
  return finding === 'hot_idle_pressure_kpa' && Number(read) < c['evidence.pressure_minimum_kpa'];
}

function clearingQuestions(entry: DeskEntry, unit: DeskUnit, c: Coefficients, ask: Ask): void {
  if (entry.cleared === null) return;
  if (unit.stops.length === 0)
    ask(
      'cleared',
      'nothing_stands',
      `Nothing stands against driving unit ${unit.unitNumber}: there is nothing to clear.`,
    );
  if (entry.cleared.trim().length < 8)
    ask(
      'cleared',
      'cleared_without_check',
      'Say what was checked and what it showed, before the stop is ended.',
    );
  const day = entry.foundOn ?? unit.asOf;
  const standing = unit.stops.flatMap((words) => /\((\d{4}-\d{2}-\d{2})\)$/.exec(words)?.[1] ?? []).sort();
  const newest = standing[standing.length - 1];
  if (newest !== undefined && day < newest)
    ask('foundOn', 'cleared_before', `What stands is of ${newest}: a finding of ${day} can not clear it.`);
  if (entry.codes.length > 0 || entry.findings.some((finding) => speaksAgainst(finding, c)))
    ask(
      'cleared',
      'cleared_with_signs',
      'This entry itself holds codes or a sign that raises a stop. Keep those first; clear in an entry of its own, after the check.',
    );
}

function sentence(words: string): string {
  const text = words.replaceAll('_', ' ');
  return `${text[0].toUpperCase()}${text.slice(1)}${/[.?!]$/.test(text) ? '' : '.'}`;
}
