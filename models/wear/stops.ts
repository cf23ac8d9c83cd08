import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso, isoFromDay } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import { electricalBeside, seenCodes } from './codeEvidence.ts';
import type { FaultCodes } from './faultCode.ts';
import { findingNumber, findingYes } from './findingValue.ts';
import { chainLimitOf } from './phaseGeometry.ts';
import type { Renewal } from './states.ts';

/** What a sign speaks of; a clear that names one of them ends that one alone. */
type SignKind = 'pressure' | 'coolant' | 'phase' | 'rattle' | 'elongation';

/** A reason to stop, the day it stands since, and the parts whose renewal removes it. */
interface StopReason {
  readonly day: number;
  readonly kind: SignKind;
  readonly words: string;
  readonly endedBy: readonly Renewal['part'][];
}

/** Words of a clear that name kinds of sign; a timing drive that was gone through settles all that came from it. */
const namedBy: readonly (readonly [RegExp, readonly SignKind[]])[] = [
  [/\bpressure|\bgauge|\bP?0?052[0-4]\b/i, ['pressure']],
  [/\bcoolant|\bglycol|\bhead gasket/i, ['coolant']],
  [/\btiming|\bchain\b|\bphaser|\btensioner/i, ['phase', 'rattle', 'elongation']],
  [/\bphase\b|\bcorrelation|\b(crank|cam)(shaft)? (and|sensor)|\bP000[89]\b|\bP001[6-9]\b/i, ['phase']],
  [/\brattl|\bnois[ey]/i, ['rattle']],
  [/\belongation|\bstretch/i, ['elongation']],
];

/** Words of a sign that is still there: what they stand beside is not cleared. */
const stillOpen =
  /\b(still|remain\w*|persist\w*|continu\w*|unresolved|pending|awaiting|not (yet|ok|okay|good|right|cleared|gone|fixed))\b/i;

/**
 * The kinds that a clear ends by its note; null: every sign at or before it, since none is named. A clause with words of a
 * sign that is still there ends nothing, and keeps what it names from being ended by another clause.
 */
function kindsEnded(note: string | null): ReadonlySet<SignKind> | null {
  const ended = new Set<SignKind>();
  const kept = new Set<SignKind>();
  for (const clause of (note ?? '').split(/[,;.]|\bbut\b|\bwhile\b|\bthough\b/i)) {
    const open = stillOpen.test(clause);
    const kinds = namedBy.flatMap(([words, named]) => (words.test(clause) ? named : []));
    for (const kind of kinds) (open ? kept : ended).add(kind);
  }
  if (ended.size === 0 && kept.size === 0) return stillOpen.test(note ?? '') ? ended : null;
  for (const kind of kept) ended.delete(kind);
  return ended;
}

/**
 * Direct evidence that raises a stop, in words; an estimate alone never does.
 * Reasons: oil pressure verified low or P0524, coolant in the oil, a correlation code without crank or cam sensor codes or
 * a lasting rattle on an interference engine, measured elongation past the limit. A reason ends by a `cleared` finding that
 * names a technician on the same day or later and, where its note names kinds of sign, names this one as settled; or by
 * renewal of the part that caused it; never by time.
 */
export function stopsOf(
  history: UnitHistory,
  renewals: readonly Renewal[],
  asOfDay: number,
  faultCodes: FaultCodes,
  coefficients: Coefficients,
): readonly string[] {
  const cleared = history.findings
    .filter((finding) => finding.finding === 'cleared' && namesSomeone(finding.value))
    .map((finding) => ({ day: dayFromIso(finding.foundOn), kinds: kindsEnded(finding.note) }))
    .filter(({ day }) => day <= asOfDay);
  return [
    ...codeReasons(history, asOfDay, faultCodes, coefficients),
    ...findingReasons(history, asOfDay, coefficients),
  ]
    .filter(
      (reason) =>
        !cleared.some(({ day, kinds }) => day >= reason.day && (kinds === null || kinds.has(reason.kind))) &&
        !renewals.some(
          (renewal) =>
            renewal.day >= reason.day && renewal.day <= asOfDay && reason.endedBy.includes(renewal.part),
        ),
    )
    .sort((a, b) => a.day - b.day || (a.words < b.words ? -1 : 1))
    .map((reason) => `${reason.words} (${isoFromDay(reason.day)})`);
}

/** A name has letters and is no yes or no. */
function namesSomeone(value: string | null): boolean {
  if (value === null) return false;
  const text = value.trim();
  return /\p{L}{2,}/u.test(text) && !/^(yes|no|true|false|ok|okay|cleared|none|unknown|n\/?a)$/i.test(text);
}

function codeReasons(
  history: UnitHistory,
  asOfDay: number,
  faultCodes: FaultCodes,
  coefficients: Coefficients,
): StopReason[] {
  const seen = seenCodes(history, faultCodes, asOfDay);
  const reasons: StopReason[] = [];
  for (const code of seen) {
    if (code.entry.group === 'pressure_low')
      reasons.push({
        day: code.day,
        kind: 'pressure',
        words: `code ${code.entry.code}: oil pressure too low; stop the engine and verify with a mechanical gauge`,
        endedBy: ['engine'],
      });
    if (
      code.entry.group === 'chain_phase' &&
      history.engine?.interference === true &&
      !electricalBeside(code, seen, ['crank_sensor', 'cam_sensor'], coefficients)
    )
      reasons.push({
        day: code.day,
        kind: 'phase',
        words: `code ${code.entry.code}: crank and cam disagree on an interference engine; do not keep driving to confirm`,
        endedBy: ['timing_set', 'engine', 'belt'],
      });
  }
  return reasons;
}

function findingReasons(history: UnitHistory, asOfDay: number, c: Coefficients): StopReason[] {
  const reasons: StopReason[] = [];
  const limit = chainLimitOf(history.engine, c);
  for (const finding of history.findings) {
    const day = dayFromIso(finding.foundOn);
    if (day > asOfDay) continue;
    const number = findingNumber(finding.value);
    switch (finding.finding) {
      case 'hot_idle_pressure_kpa':
        if (number !== null && number < c['evidence.pressure_minimum_kpa'])
          reasons.push({
            day,
            kind: 'pressure',
            words: `hot idle oil pressure ${number} kPa, below the least allowed`,
            endedBy: ['engine'],
          });
        break;
      case 'coolant_in_oil':
        if (findingYes(finding.value))
          reasons.push({ day, kind: 'coolant', words: 'coolant found in the oil', endedBy: ['engine'] });
        break;
      case 'start_rattle_s':
        if (
          number !== null &&
          number >= c['evidence.rattle_lasting_s'] &&
          history.engine?.interference === true &&
          limit !== null
        )
          reasons.push({
            day,
            kind: 'rattle',
            words: `rattle lasting ${number} s after the start on an interference engine`,
            endedBy: ['timing_set', 'phaser', 'tensioner_guides', 'engine'],
          });
        break;
      case 'chain_elongation_percent':
        if (number !== null && limit !== null && number >= limit.percent)
          reasons.push({
            day,
            kind: 'elongation',
            words: `chain elongation measured at ${number} %, limit ${limit.percent} % (${limit.words})`,
            endedBy: ['timing_set', 'engine'],
          });
        break;
      default:
        break;
    }
  }
  for (const sample of history.samples) {
    // nobody clears what the laboratory has not told yet
    const day = dayFromIso(sample.reportedOn ?? sample.sampledOn);
    if (sample.glycol === true && day <= asOfDay)
      reasons.push({
        day,
        kind: 'coolant',
        words: 'coolant in the oil by the laboratory (glycol found)',
        endedBy: ['engine'],
      });
  }
  return reasons;
}
