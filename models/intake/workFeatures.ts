import { workKinds, type WorkKind } from '../schema/service.ts';
import type { WorkTrace } from './workTrace.ts';
import { fineSign, roughSign, signsAround } from './workAround.ts';
import { hashOf, mixed } from './workHash.ts';
import type { Part } from './workSigns.ts';

/** What the rules answered; the second reader weighs it as one sign among others. */
export interface RuleAnswer {
  readonly works: readonly WorkKind[];
  readonly confidence: number;
}

/** The kinds that the second reader answers yes or no to; `other` is none of them. */
export const readKinds = workKinds.filter((kind) => kind !== 'other');

/** Signs of a text as numbers: those of the whole text, and those of each kind by its place in {@link readKinds}. */
export interface WorkFeatures {
  readonly ofText: readonly number[];
  readonly ofKind: readonly (readonly number[])[];
}

/** Kinds that a thing of the catalog speaks of, where it is not the kind of the same name. */
const kindsOfThing: Readonly<Record<string, readonly string[]>> = {
  oil: ['oil_change', 'top_up'],
  oil_level: ['top_up', 'inspection'],
  bare_filter: ['filter'],
  bare_timing: ['timing_set'],
  bare_chain: ['timing_set'],
  bare_solenoid: ['oil_control_solenoid'],
  screen: ['screen_cleaned'],
  bare_screen: ['screen_cleaned'],
  meter: ['meter_replaced'],
};

function kindsOf({ sign }: Part): readonly string[] {
  if (sign.is === 'job') return sign.works;
  if (sign.is === 'thing') return kindsOfThing[sign.thing] ?? [sign.thing];
  if (sign.is === 'grade') return ['oil_change', 'top_up'];
  if (sign.is !== 'action') return [];
  if (sign.action === 'inspect') return ['inspection'];
  return sign.action === 'top_up' || sign.action === 'fill' ? ['top_up'] : [];
}

/**
 * Signs by which the second reader judges: words and pairs of words of the text, and for each kind what the rules
 * answered and what stands around each mention of it. Most count for every kind alike, and once more for the kind alone.
 */
export function featuresOf(trace: WorkTrace, answer: RuleAnswer): WorkFeatures {
  const { parts, segments, marked, jobs } = trace;
  const ofText = new Set<string>();
  const toks = parts.filter(({ sign }) => sign.is !== 'stop').flatMap(({ text }) => text.split(' '));
  toks.forEach((word, at) => {
    ofText.add(`w${word}`);
    if (word.length > 5) ofText.add(`p${word.slice(0, 5)}`);
    if (at > 0) ofText.add(`b${toks[at - 1] ?? ''} ${word}`);
  });
  const live = parts.filter(({ sign }) => sign.is !== 'filler' && sign.is !== 'link');
  const signs = ['|', ...live.map(fineSign), '|'];
  signs.forEach((sign, at) => {
    ofText.add(`s${sign}`);
    if (at > 0) ofText.add(`S${signs[at - 1] ?? ''} ${sign}`);
  });
  const dropped = new Map<Part, string>();
  for (const { entries } of segments)
    for (const entry of entries) if (entry.dropped !== null) dropped.set(entry.part, entry.dropped);
  const liters = marked.amounts[0]?.liters ?? 0;
  const amount = liters === 0 ? 'none' : liters < 2.5 ? 'little' : liters < 12 ? 'fill' : 'much';
  const unknown = Math.min(3, parts.filter(({ sign }) => sign.is === 'unknown').length);
  const level = Math.floor(answer.confidence * 10);
  const ofAll = new Set(
    [...live.map((part) => `said ${roughSign(part)}`), ...answer.works.map((work) => `rules ${work}`)]
      .concat('bias', `amount ${amount}`, `unknown ${unknown}`)
      .map(hashOf),
  );
  const around: ReadonlySet<number>[] = [];
  const ofKind = readKinds.map((kind) => {
    const shared = new Set<number>();
    const own = new Set<number>(ofAll);
    const add = (sign: string) => shared.add(hashOf(sign));
    const isAnswer = answer.works.includes(kind);
    add(`answer ${isAnswer ? 'yes' : answer.works.includes('other') ? 'none' : 'no'}`);
    add(`answer ${isAnswer ? 'yes' : 'no'} ${level}`);
    if (isAnswer) add(`answers ${Math.min(3, answer.works.length)}`);
    let sure = 0;
    for (const job of jobs) if (job.work === kind) sure = Math.max(sure, job.sure);
    add(`job ${Math.ceil(sure * 5)}`);
    let mentions = 0;
    live.forEach((part, at) => {
      if (!kindsOf(part).includes(kind)) return;
      mentions += 1;
      add(`is ${part.sign.is === 'job' ? 'job' : fineSign(part)}${part.exact ? '' : ' ~'}`);
      own.add(hashOf(`text ${part.text}`));
      add(`dropped ${dropped.get(part) ?? 'no'} ${part.sign.is}`);
      for (const sign of (around[at] ??= signsAround(parts, live, at))) shared.add(sign);
    });
    add(`mentions ${Math.min(3, mentions)}`);
    return hashesOf(shared, own, saltOf[kind] ?? 0);
  });
  return { ofText: [...ofText].map(hashOf), ofKind };
}

const saltOf: Readonly<Record<string, number>> = Object.fromEntries(
  readKinds.map((kind) => [kind, hashOf(kind)]),
);

/** Every shared sign counts for all kinds alike and for the kind alone, its own signs for the kind alone. */
function hashesOf(shared: ReadonlySet<number>, own: ReadonlySet<number>, salt: number): number[] {
  const hashes: number[] = [];
  for (const hash of shared) hashes.push(hash, mixed(hash, salt));
  for (const hash of own) hashes.push(mixed(hash, salt));
  return hashes;
}
