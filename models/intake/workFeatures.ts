import { workKinds, type WorkKind } from '../schema/service.ts';
import type { WorkTrace } from './workTrace.ts';
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

/** FNV-1a over UTF-16 units, 32 bits: a public hash, the same everywhere. */
export function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return hash >>> 0;
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

const roughSign = ({ sign }: Part) => (sign.is === 'action' ? `a:${sign.action}` : sign.is);
function fineSign(part: Part): string {
  const { sign } = part;
  if (sign.is === 'job') return `job:${sign.works.join('+')}`;
  return sign.is === 'thing' ? `t:${sign.thing}` : roughSign(part);
}

/** Words for a thing that was named before: "replaced sensor", "fitted a new one". */
const bareNouns =
  /^(sensors?|valves?|parts?|units?|ones?|both|it|them|assembly|kit|hose|belt|all|this|that|each|complete|pair|set|element)$/;

/** A clause in short: what was done in it, and whether it names a thing of its own. */
function clauseSign(clause: readonly Part[]): string {
  const marks = new Set<string>();
  for (const part of clause) {
    const { is } = part.sign;
    if (is === 'action' || telling.has(is)) marks.add(roughSign(part));
    else if (is === 'job' || is === 'thing') marks.add('ours');
    else if (bareNouns.test(part.text)) marks.add('bare');
    else if (is === 'foreign' || is === 'oily' || is === 'unknown') marks.add('else');
  }
  return [...marks].sort().join(' ');
}

/** The clauses after a mention, up to the next thing of ours, and the one before. */
function clausesAround(parts: readonly Part[], at: number, add: (sign: string) => void): void {
  const clauses: Part[][] = [[]];
  let own = 0;
  parts.forEach((part, place) => {
    if (place === at) own = clauses.length - 1;
    if (part.sign.is === 'stop') clauses.push([]);
    else clauses[clauses.length - 1]?.push(part);
  });
  add(`k0 ${clauseSign(clauses[own] ?? [])}`);
  add(`k- ${clauseSign(clauses[own - 1] ?? [])}`);
  for (let on = own + 1; on <= own + 3 && on < clauses.length; on += 1) {
    const sign = clauseSign(clauses[on] ?? []);
    add(`k${on - own} ${sign}`);
    add(`k+ ${sign}`);
    if (sign.includes('ours')) break;
  }
}

const telling = new Set(['action', 'undone', 'refused', 'ahead', 'without', 'fine', 'symptom']);

/** What stands around one mention of a kind: its neighbours, its clause, the nearest telling word on either side. */
function aroundMention(live: readonly Part[], at: number, add: (sign: string) => void): void {
  const near = (place: number) => {
    const part = live[place];
    return part === undefined ? '|' : roughSign(part);
  };
  for (let off = -4; off <= 4; off += 1) {
    if (off === 0) continue;
    if (Math.abs(off) <= 3) add(`o${off}${near(at + off)}`);
    add(`${off < 0 ? 'l' : 'r'}${near(at + off)}`);
    const text = live[at + off]?.text;
    if (text !== undefined && Math.abs(off) <= 2) add(`w${off}${text}`);
  }
  add(`lr${near(at - 1)} ${near(at + 1)}`);
  add(`ll${near(at - 2)} ${near(at - 1)}`);
  add(`rr${near(at + 1)} ${near(at + 2)}`);
  const isStop = (place: number) => live[place]?.sign.is === 'stop';
  let from = at;
  while (from > 0 && !isStop(from - 1)) from -= 1;
  let to = at;
  while (to < live.length - 1 && !isStop(to + 1)) to += 1;
  for (let place = from; place <= to; place += 1)
    if (place !== at) add(`c${place < at ? '<' : '>'}${near(place)}`);
  add(`n${near(to + 2)}`);
  for (const step of [-1, 1]) {
    let stops = 0;
    let place = at + step;
    for (; place >= 0 && place < live.length && !telling.has(live[place]?.sign.is ?? ''); place += step)
      if (isStop(place)) stops += 1;
    add(`t${step}${near(place)}${Math.min(2, stops)}`);
  }
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
  const said = new Set(live.map(roughSign));
  const level = Math.floor(answer.confidence * 10);
  const ofKind = readKinds.map((kind) => {
    const shared = new Set<string>();
    const own = new Set<string>([`bias`, `amount ${amount}`, `unknown ${unknown}`]);
    for (const sign of said) own.add(`said ${sign}`);
    for (const work of answer.works) own.add(`rules ${work}`);
    const isAnswer = answer.works.includes(kind);
    shared.add(`answer ${isAnswer ? 'yes' : answer.works.includes('other') ? 'none' : 'no'}`);
    shared.add(`answer ${isAnswer ? 'yes' : 'no'} ${level}`);
    if (isAnswer) shared.add(`answers ${Math.min(3, answer.works.length)}`);
    const sure = Math.max(0, ...jobs.filter(({ work }) => work === kind).map((job) => job.sure));
    shared.add(`job ${Math.ceil(sure * 5)}`);
    const mentions = live.flatMap((part, at) => (kindsOf(part).includes(kind) ? [at] : []));
    shared.add(`mentions ${Math.min(3, mentions.length)}`);
    for (const at of mentions) {
      const part = live[at];
      if (part === undefined) continue;
      shared.add(`is ${part.sign.is === 'job' ? 'job' : fineSign(part)}${part.exact ? '' : ' ~'}`);
      own.add(`text ${part.text}`);
      shared.add(`dropped ${dropped.get(part) ?? 'no'} ${part.sign.is}`);
      aroundMention(live, at, (sign) => shared.add(sign));
      clausesAround(parts, parts.indexOf(part), (sign) => shared.add(sign));
    }
    return hashesOf(shared, own, kind);
  });
  return { ofText: [...ofText].map(hashOf), ofKind };
}

function hashesOf(shared: ReadonlySet<string>, own: ReadonlySet<string>, kind: string): number[] {
  const salt = hashOf(kind);
  const hashes: number[] = [];
  for (const sign of shared) {
    const hash = hashOf(sign);
    hashes.push(hash, mixed(hash, salt));
  }
  for (const sign of own) hashes.push(mixed(hashOf(sign), salt));
  return hashes;
}

/** One hash out of two. */
export function mixed(hash: number, salt: number): number {
  let sum = Math.imul(hash ^ (hash >>> 15) ^ salt, 0x2c1b3c6d);
  sum ^= sum >>> 12;
  return Math.imul(sum, 0x297a2d39) >>> 0;
}
