import type { Segment } from './workSegment.ts';

const wheelWord = /\b(gears?|sprockets?|pulleys?)$/;
const phasedWord = /vvt|vct|variable|phas|actuator|adjust/;

/** "Chain, crank gear, cam gear": plain wheels beside their chain or belt belong to it. */
export function dropPlainWheels(segments: readonly Segment[]): void {
  const entries = segments.flatMap((segment) => segment.entries);
  const hasDrive = entries.some(
    ({ part: { sign } }) => sign.is === 'thing' && ['timing_set', 'bare_chain', 'belt'].includes(sign.thing),
  );
  if (!hasDrive) return;
  for (const entry of entries) {
    const { sign, text } = entry.part;
    if (sign.is === 'thing' && sign.thing === 'phaser' && wheelWord.test(text) && !phasedWord.test(text))
      entry.dropped ??= 'foreign';
  }
}
