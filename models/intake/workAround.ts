import { hashOf } from './workHash.ts';
import type { Part } from './workSigns.ts';

export const roughSign = ({ sign }: Part) => (sign.is === 'action' ? `a:${sign.action}` : sign.is);
export function fineSign(part: Part): string {
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

/** Signs around the part at `at` of the telling parts `live` as hashes, see workHash. */
export function signsAround(parts: readonly Part[], live: readonly Part[], at: number): ReadonlySet<number> {
  const signs = new Set<number>();
  const add = (sign: string) => signs.add(hashOf(sign));
  const part = live[at];
  if (part === undefined) return signs;
  aroundMention(live, at, add);
  clausesAround(parts, parts.indexOf(part), add);
  return signs;
}
