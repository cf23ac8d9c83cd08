import type { WorkRead } from '../schema/history.ts';
import { workKinds, type WorkKind } from '../schema/service.ts';
import type { Amount } from './workAmounts.ts';
import type { RuleAnswer } from './workFeatures.ts';
import { hasOwnForeign, isOtherFluid } from './workBeside.ts';
import { isFirstFill, opensEngine, opensFront, withoutFirstFill } from './workFirstFill.ts';
import { withLostOil } from './workLostOil.ts';
import {
  isBareDiagnosis,
  isConsumption,
  isDriveOrScan,
  isFoundWorn,
  isLookAlone,
  isOfDrive,
  isOfRenewed,
  isOpenedToLook,
  isOwnCheck,
} from './workLooks.ts';
import { readSecond, settleReadings, type SecondReader } from './workSecond.ts';
import type { Segment } from './workSegment.ts';
import type { Part } from './workSigns.ts';
import type { Job } from './workThings.ts';
import { traceWork, type WorkTrace } from './workTrace.ts';
import { foldWork, type WorkWords } from './workWords.ts';

/** Work texts that people have settled: {@link taughtKey} of the text to its works. */
export type TaughtWorks = ReadonlyMap<string, readonly WorkKind[]>;

/** The form of a text under which it is taught: case, accents and spacing do not matter. */
export function taughtKey(text: string): string {
  return foldWork(text).replace(/\s+/g, ' ').trim();
}

const ownWords = new Set<string>(workKinds);

function ownWorks(text: string): WorkKind[] | null {
  const words = text
    .trim()
    .toLowerCase()
    .split(/\s*[;,+&]\s*/);
  return words.every((word) => ownWords.has(word)) ? ([...new Set(words)] as WorkKind[]) : null;
}

/** More than a top-up takes: with an oil change in the same text it is that change's fill. */
const fillLiters = 3;

const oilWorks: ReadonlySet<string> = new Set(['oil_change', 'top_up', 'filter']);

function amountFor(
  works: readonly WorkKind[],
  segments: readonly Segment[],
  amounts: readonly Amount[],
): number | null {
  const ofOil = segments.filter((segment) => names(segment, 'oil'));
  if (works.some((work) => oilWorks.has(work)))
    return amountIn(ofOil, amounts) ?? amountIn(segments, amounts) ?? onlyAmount(segments, amounts);
  // The first fill of an engine that was opened is the repair's; by its grade it is oil.
  if (!works.some((work) => opensEngine.has(work) || opensFront.has(work))) return null;
  const filled = segments.filter((segment) => isFirstFill(segment) || names(segment, 'oil'));
  return amountIn(filled, amounts);
}

/** The one amount of a text that tells of oil is the oil's, unless another fluid is named beside it. */
function onlyAmount(segments: readonly Segment[], amounts: readonly Amount[]): number | null {
  const [only, more] = amounts;
  if (only === undefined || more !== undefined) return null;
  const holder = segments.find(({ parts }) => parts.some(({ amount }) => amount === 0));
  return isOtherFluid(holder) ? null : only.liters;
}

const names = ({ entries }: Segment, thing: 'engine' | 'oil') =>
  entries.some(({ part: { sign } }) =>
    sign.is === 'thing'
      ? sign.thing === thing
      : thing === 'oil' && sign.is === 'job' && sign.works.some((work) => oilWorks.has(work)),
  );

const takenOut = /^(drain|drained|extracted|sucked out|vacuumed out)$/;

const isNotIn = /^(?:low|short|down|over|per|under|missing|out|over full|short of)$/;

/** A change's fill before what was added, both before what came out. */
function amountIn(segments: readonly Segment[], amounts: readonly Amount[]): number | null {
  let added: number | null = null;
  let filled: number | null = null;
  let taken: number | null = null;
  for (const segment of segments) {
    // "Added 1 gal, engine coolant": the engine only says where; with the oil beside it, whose.
    const isOfEngine = names(segment, 'engine') && !segment.parts.some(({ sign }) => sign.is === 'grade');
    if ((hasOwnForeign(segment) || isOfEngine) && !names(segment, 'oil')) continue;
    const isTopUp = segment.actions.some(({ action }) => action === 'top_up');
    const isTakenOut =
      segment.actions.length === 1 && segment.actions.every(({ text }) => takenOut.test(text));
    for (const [place, { amount }] of segment.parts.entries()) {
      const liters = amounts[amount]?.liters;
      if (liters === undefined) continue;
      // "2 qts low, gave it a litre", "1 qt per 800 mi", "old oil 9 l out": none of it went in.
      if (isNotIn.test(segment.parts[place + 1]?.text ?? '') || segment.parts[place - 1]?.text === 'by') {
        taken ??= liters;
        continue;
      }
      if (isTopUp && liters < fillLiters) added ??= liters;
      else if (isTakenOut) taken ??= liters;
      else filled ??= liters;
    }
  }
  return filled ?? added ?? taken;
}

/** What a lettered service held is a shop's own custom; once the oil is spoken for, the rest of it is a look. */
const settledService = 0.88;
const vagueService = 0.7;

/** A word beside a job that is not understood can turn it round: a person should look. */
const strangeWord = 0.8;
const isUnderstood = ({ sign, text }: Part) => sign.is !== 'unknown' || text.length <= 2;

function unknownShare(parts: readonly Part[]): number {
  const words = parts.filter(({ sign }) => !['stop', 'join', 'link', 'number'].includes(sign.is));
  if (words.length === 0) return 1;
  return words.filter(({ sign }) => sign.is === 'unknown').length / words.length;
}

/** How sure it is that a text tells of none of our jobs: as much of it as is understood. */
function otherConfidence(parts: readonly Part[], segments: readonly Segment[]): number {
  const isDropped = segments.some(({ entries }) => entries.some(({ dropped }) => dropped !== null));
  const isForeign = segments.some(({ hasForeign }) => hasForeign);
  const isOpen = segments.some(({ entries }) => entries.some(({ dropped }) => dropped === null));
  if (!isDropped && !isForeign) return 0.2;
  return Math.max(0.3, (isOpen ? 0.6 : 0.9) - unknownShare(parts));
}

const isFillSize = ({ liters }: Amount) => liters >= 2.5;

/** "Synthetic oil service 0W-20, 5 l": a service of the oil with a grade or an amount is a change. */
const isOilService = (segments: readonly Segment[], jobs: readonly Job[], isMeasured: boolean) =>
  isMeasured &&
  jobs.length > 0 &&
  jobs.every(({ work }) => work === 'other') &&
  segments.some((segment) => names(segment, 'oil')) &&
  segments.every(
    ({ hasForeign, entries }) => !hasForeign && entries.every(({ dropped }) => dropped === null),
  );

/** A line of an invoice that only says "oil". */
const isOilAlone = (parts: readonly Part[]) =>
  parts.length > 0 &&
  parts.every(({ sign }) => sign.is === 'stop' || (sign.is === 'thing' && sign.thing === 'oil'));

/** What the rules make of a text: its works and how sure they are. */
export function readByRules({ marked, parts, segments, jobs: found }: WorkTrace): RuleAnswer {
  let jobs: readonly Job[] = found;
  if (
    jobs.length === 0 &&
    marked.grade !== null &&
    marked.amounts.some(isFillSize) &&
    segments.every(
      ({ hasForeign, entries }) => !hasForeign && entries.every(({ dropped }) => dropped === null),
    )
  )
    jobs = segments.slice(0, 1).map((segment) => ({ work: 'oil_change', sure: 0.7, segment }));
  if (isOilService(segments, jobs, marked.grade !== null || marked.amounts.some(isFillSize)))
    jobs = segments.slice(0, 1).map((segment) => ({ work: 'oil_change', sure: 0.75, segment }));
  if (jobs.length === 0 && isOilAlone(parts))
    jobs = segments.slice(0, 1).map((segment) => ({ work: 'oil_change', sure: 0.6, segment }));
  jobs = withLostOil(withoutFirstFill(jobs), segments, marked.amounts);
  const isChange = jobs.some(({ work }) => work === 'oil_change');
  const kept = jobs.filter(({ work, segment }) => {
    if (work !== 'top_up' || !isChange) return true;
    const amount =
      segment.parts.map(({ amount: at }) => marked.amounts[at]?.liters ?? 0).find((liters) => liters > 0) ??
      0;
    return amount < fillLiters && segment.actions.some(({ action }) => action === 'top_up');
  });
  const isRenewed = kept.some(({ work }) => work !== 'inspection' && work !== 'other' && work !== 'top_up');
  const isOtherRepair = segments.some(
    ({ hasForeign, actions }) =>
      hasForeign && actions.some(({ action }) => action === 'renew' || action === 'mend'),
  );
  const isServed = kept.some(({ work }) => oilWorks.has(work));
  const named = kept.filter(
    ({ work, segment }) =>
      work !== 'other' &&
      !(
        work === 'inspection' &&
        ((kept.length > 1 && isBareDiagnosis(segment)) ||
          (isRenewed && isLookAlone(segment)) ||
          (isOtherRepair && isLookAlone(segment) && !isOfDrive(segment)) ||
          isDriveOrScan(segment) ||
          (isChange && isConsumption(segment)) ||
          isOfRenewed(segment, kept) ||
          (isServed && isOwnCheck(segment)))
      ),
  );
  if (named.length === 0 && (isFoundWorn(parts, segments) || isOpenedToLook(parts)))
    return { works: ['inspection'], confidence: 0.6 };
  if (named.length === 0) {
    const vague = kept.length > 0 ? 0.3 : otherConfidence(parts, segments);
    return { works: ['other'], confidence: round(vague) };
  }
  const best = new Map<WorkKind, number>();
  for (const { work, sure } of named) best.set(work, Math.max(best.get(work) ?? 0, sure));
  const look = best.get('inspection') ?? 0;
  const tellsOfOil = named.some(({ work }) => oilWorks.has(work));
  if (tellsOfOil && look >= vagueService) best.set('inspection', Math.max(look, settledService));
  const isRead = named.every(({ segment }) => segment.parts.every(isUnderstood));
  const least = Math.min(...best.values()) * (isRead ? 1 : strangeWord);
  return { works: [...best.keys()], confidence: round(least * (1 - 0.15 * unknownShare(parts))) };
}

/** Characters of a text that are read; what is longer is no line of work, and a person should look. */
const mostRead = 4000;
const cutConfidence = 0.5;

/**
 * Reads what a shop wrote into one or several jobs, with the grade, amount and bank that the text names. A filter is
 * listed beside an oil change when the text names one; `other` stands alone, for texts that tell of none of our jobs.
 * @param text as it stands in the row; of a text of more than 4000 characters the rest is left unread
 * @param words the catalog, see compileWorkWords
 * @param taught texts settled by people; they come first
 * @param second the learned reader that looks at what the rules say; null: the rules alone
 * @returns confidence 1 for words of the own layout and taught texts; below 0.8 a person should look
 * @example readWork('PM-B, top up 1 qt', …) → { works: ['oil_change', 'top_up'], oilL: 0.946352946, … }
 */
export function readWork(
  text: string,
  words: WorkWords,
  taught: TaughtWorks = new Map(),
  second: SecondReader | null = null,
): WorkRead {
  const trace = traceWork(text.slice(0, mostRead), words);
  const { marked, segments } = trace;
  const settled = taught.get(taughtKey(text)) ?? ownWorks(text);
  const rules = readByRules(trace);
  const { works, confidence } =
    second === null
      ? rules
      : settleReadings(rules, readSecond(trace, rules, second), trace.parts.length, second);
  return {
    works: settled ?? works,
    oilGrade: marked.grade,
    oilL: amountFor(settled ?? works, segments, marked.amounts),
    bank: marked.bank,
    confidence:
      settled === null ? round(text.length > mostRead ? Math.min(confidence, cutConfidence) : confidence) : 1,
  };
}

const round = (share: number) => Math.floor(share * 1000 + 1e-6) / 1000;
