import type { Entry, Segment } from './workSegment.ts';

/** It says that something was not done. */
export const isDenied = (segment: Segment) =>
  segment.parts.some(({ sign }) => sign.is === 'undone' || sign.is === 'refused' || sign.is === 'ahead');

/** Words that stand for a thing named before: "replaced sensor", "fitted a new one". */
const standsIn = /^(sensors?|valves?|parts?|units?|hose|assembly|belt|element|component)$/;

/** "Sensor failed. Replaced sensor": what was worn or looked at first, and renewed by a later clause without a name. */
export function renewedLater(segments: readonly Segment[], index: number, wanted = 'renew'): boolean {
  for (let on = index + 1; on < segments.length && on <= index + 3; on += 1) {
    const later = segments[on];
    if (later === undefined || isDenied(later)) return false;
    // "Valve stuck, replaced with oil change": along with it.
    const [head] = later.parts;
    const isAlongWith = later.entries.some(({ part: { sign } }) => sign.is === 'job');
    if (wanted === 'renew' && isAlongWith && head?.text === 'replaced with') return true;
    const isOfAnother = later.parts.some(
      ({ sign, text }, at) =>
        (sign.is === 'foreign' || sign.is === 'oily') &&
        !standsIn.test(text) &&
        !/\b(?:with|with new)$/.test(later.parts[at - 1]?.text ?? ''),
    );
    const isBare = later.entries.every(({ part: { sign } }) => sign.is !== 'thing' && sign.is !== 'job');
    if (later.actions.some(({ action }) => action === wanted)) return isBare && !isOfAnother;
    if (!isBare) return false;
  }
  return false;
}

const together = /^(both|all|all three|beide|alle|ambos|ambas|entrambi|tous|toutes|les deux)\b/;

/** "Thermostat stuck; cam sensor too - both renewed": it speaks of all that was named before. */
export const renewedTogether = (segments: readonly Segment[], index: number) =>
  segments
    .slice(index + 1, index + 5)
    .some(
      (later) =>
        !isDenied(later) &&
        later.entries.length === 0 &&
        !later.hasForeign &&
        later.parts.some(({ text }) => together.test(text)) &&
        later.actions.some(({ action }) => action === 'renew'),
    );

const whenWord =
  /^(after|while|when|during|before|following|nach|apres|tras|despues|depois|dopo|efter|etter)$/;

/** It names something that is none of ours, other than to say when: "added 1 l after tightening the drain plug". */
export function hasOwnForeign({ parts, hasForeign }: Segment): boolean {
  if (!hasForeign) return false;
  const when = parts.findIndex(({ text }) => whenWord.test(text));
  const told = when < 0 ? parts : parts.slice(0, when);
  return told.some(({ sign }) => sign.is === 'foreign' || sign.is === 'oily');
}

const fluids =
  /coolant|\bdiesel\b|\bpetrol\b|gasoline|out of gas|out of fuel|no fuel|antifreeze|(?<!crush |plug )washer|glycol|\bdef\b|urea|brake fluid|refrigerante|kuhl/;

const tellsOfOil = ({ entries, parts }: Segment) =>
  entries.some(({ part: { sign } }) => sign.is === 'thing' && sign.thing.startsWith('oil')) ||
  parts.some(({ sign }) => sign.is === 'grade');

/** It speaks of a fluid that is none of the engine's oil: "coolant low". */
export const isOtherFluid = (segment: Segment | undefined): boolean =>
  segment !== undefined &&
  !tellsOfOil(segment) &&
  segment.parts.some(({ sign, text }) => sign.is === 'oily' || fluids.test(text));

const fluidWord = /(?:steering|hydraulic|hyd|transmission|gear|brake|clutch) ?(?:fluid|oil)|^p s|fluid$/;
/** "Power steering fluid leaked out. New hose and filled 1 qt": the fluid named last, a few clauses back, is another. */
export function isOfFluidBefore(segments: readonly Segment[], index: number): boolean {
  if (isOtherFluid(segments[index - 1])) return true;
  for (let back = index - 1; back >= index - 3; back -= 1) {
    const before = segments[back];
    if (before === undefined || tellsOfOil(before)) return false;
    const said = before.parts.map(({ text }) => text).join(' ');
    const isOther = before.parts.some(({ sign, text }) => sign.is === 'oily' && fluidWord.test(text));
    if (isOther || fluids.test(said)) return true;
    if (/\boil\b|engine|motor/.test(said)) return false;
  }
  return false;
}

const putWord = /^(?:put|put in|poured|pour|dumped?|dumped in|tipped in|gave|in|used|threw|went in)$/;

/** "Put 1 quart in the engine": it only says where. */
export const isPlace = ({ part }: Entry, { parts, actions }: Segment) =>
  part.sign.is === 'thing' &&
  part.sign.thing === 'engine' &&
  actions.some(
    ({ action, text }) =>
      action === 'fill' || action === 'top_up' || (putWord.test(text) && actions.length === 1),
  ) &&
  parts.some((other, place) => other.sign.is === 'amount' && place < parts.indexOf(part));
