import type { Segment } from './workSegment.ts';
import type { Part } from './workSigns.ts';

const bareTensioner =
  /^((?:hydraulic |belt |auto |automatic )?tensioners?|gergi|tensore?s?|tendeurs?|spanner|tenditor[ei]|tensionador|napinacz)$/;
const beltWord =
  /kayis|szij|hihna|remen|remin|curea|kamrem|belt|riem|courroie|correa|correia|cinghia|\bbanda|pasek|\bserp/;

/** A tensioner named beside a drive belt is that belt's. */
export function dropBeltTensioners(parts: readonly Part[], segments: readonly Segment[]): void {
  const hasBelt = parts.some(
    ({ sign, text }) =>
      (sign.is === 'foreign' || sign.is === 'thing' || (sign.is === 'job' && sign.works.includes('belt'))) &&
      beltWord.test(text),
  );
  const hasChain = parts.some(
    ({ sign }) => sign.is === 'thing' && (sign.thing === 'timing_set' || sign.thing === 'bare_chain'),
  );
  if (!hasBelt || hasChain) return;
  for (const { entries } of segments)
    for (const entry of entries) if (bareTensioner.test(entry.part.text)) entry.dropped ??= 'foreign';
}
