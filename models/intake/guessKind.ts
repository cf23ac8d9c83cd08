import { kindTable, recordKinds, type RecordKind } from '../schema/kinds.ts';
import { assignColumns, type Assignment } from './assignColumns.ts';
import type { ColumnEvidence } from './evidence.ts';
import { headerWords } from './headerWords.ts';
import type { ColumnAnswer } from './recognised.ts';
import type { Vocabulary } from './synonyms.ts';

const labFields =
  'kv100Mm2S kv40Mm2S baseNumberMgKohG acidNumberMgKohG fuelPercent sootPercent oxidationACm waterPercent ironPpm copperPpm siliconPpm';

/** What a table must have to be of a kind: one field of each group. */
const essentials: Readonly<Record<RecordKind, readonly string[]>> = {
  engines: ['engineFamily', 'displacementL sumpL bookIntervalKm timingDrive phasers requiredGrade'],
  sites: ['site', 'bays technicians hoursPerDay weekdays meanTemperatureJanC'],
  units: [
    'unitNumber',
    'vin description engineFamily inServiceOn duty plannedDisposalOn powertrain disposedOn site status',
  ],
  technicians: ['technician', 'skills hoursPerDay awayFrom'],
  stock: ['item', 'onHand leadTimeDays unitCostCents'],
  readings: ['unitNumber', 'readOn', 'odometerKm engineHoursH idleHoursH fuelL'],
  fuel: ['unitNumber', 'filledOn', 'fuelL'],
  service: ['unitNumber', 'servicedOn', 'work'],
  samples: ['unitNumber', 'sampledOn', labFields],
  findings: ['unitNumber', 'foundOn', 'finding'],
  codes: ['unitNumber', 'seenOn', 'code'],
  blackouts: ['unitNumber', 'from', 'to reason'],
};

/** Fields that many kinds share say little about the kind. */
const shared = new Set(
  'unitNumber odometerKm note site status recordId recordedOn workOrder description value costCents bank fuel vin engineFamily'.split(
    ' ',
  ),
);

function fieldsOf(assignment: Assignment): Set<string> {
  return new Set(assignment.matches.flatMap((match) => (match === null ? [] : [match.field])));
}

/** Groups of essential fields that the table lacks. */
export function missingEssentials(
  assignment: Assignment,
  constants: Readonly<Record<string, string>>,
): string[][] {
  const fields = fieldsOf(assignment);
  return essentials[assignment.kind]
    .map((group) => group.split(' '))
    .filter((group) => !group.some((field) => fields.has(field) || field in constants));
}

function scoreOf(assignment: Assignment, stemHits: number, missing: number): number {
  const { dateField } = kindTable[assignment.kind];
  let score = 1.5 * Math.min(1, stemHits) - 3 * missing;
  for (const match of assignment.matches) {
    if (match === null) continue;
    const weight =
      match.field === dateField ? (match.confidence > 0.9 ? 0.6 : 0.2) : shared.has(match.field) ? 0.2 : 1;
    score += weight * match.confidence;
  }
  return score;
}

/** How many of a kind's words stand in a file's name. */
export function stemHits(fileStem: string, kind: RecordKind, vocabulary: Vocabulary): number {
  const words = headerWords(fileStem);
  const joined = ` ${words.join(' ')} `;
  return (vocabulary.source.kinds[kind] ?? []).filter((name) =>
    joined.includes(` ${headerWords(name).join(' ')} `),
  ).length;
}

export interface KindGuess {
  /** null when two kinds fit about as well, or none does */
  readonly kind: RecordKind | null;
  /** kinds that fit, best first */
  readonly choices: readonly RecordKind[];
  readonly assignments: ReadonlyMap<RecordKind, Assignment>;
}

/** Finds the kind of records that a table holds: by its columns, helped by the file's name. */
export function guessKind(
  look: { readonly headers: readonly string[]; readonly evidence: readonly ColumnEvidence[] },
  fileStem: string,
  vocabulary: Vocabulary,
  answers: Readonly<Record<string, ColumnAnswer>>,
  constants: Readonly<Record<string, string>>,
): KindGuess {
  const assignments = new Map<RecordKind, Assignment>();
  const scored = recordKinds.map((kind) => {
    const assignment = assignColumns(look, kind, vocabulary, answers);
    assignments.set(kind, assignment);
    const missing = missingEssentials(assignment, constants).length;
    return { kind, missing, score: scoreOf(assignment, stemHits(fileStem, kind, vocabulary), missing) };
  });
  const own = recordKinds.find((kind) => kind === fileStem.toLowerCase());
  scored.sort((a, b) => b.score - a.score);
  const fitting = scored.filter(({ missing }) => missing === 0);
  const [best, second] = fitting;
  const clear = best !== undefined && (second === undefined || best.score - second.score >= 0.6);
  return {
    kind: own ?? (clear ? best.kind : null),
    choices: (fitting.length > 0 ? fitting : scored.slice(0, 4)).map(({ kind }) => kind),
    assignments,
  };
}
