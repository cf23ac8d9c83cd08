import type { Amount } from './workAmounts.ts';
import type { Segment } from './workSegment.ts';

/** More than is ever added between changes of a car's or van's engine. */
const changeLiters = 2.5;

const drained =
  /\b(drain|drained|dump|dumped|abgelassen|vidange|vidangee|vaciado|svuotato|afgetapt|spuszczono|tappad|new filter|filter change)\b/;
const toTheMark =
  /\b(mark|max|maximum|to full|full line|to level|up to level|low|between|maximo|massimo|niveau|nivel|livello|peil|niva)\b/;

/**
 * Says of "filled" and "refilled" which of the two it was: after draining, or with a change's amount, the oil is new;
 * up to the mark, or with little, it was topped up. What stays open is left as `fill`.
 */
export function settleFills(segments: readonly Segment[], amounts: readonly Amount[]): void {
  if (!segments.some(({ actions }) => actions.some(({ action }) => action === 'fill'))) return;
  const said = segments.flatMap(({ parts }) => parts.map(({ text }) => text)).join(' ');
  const isChange = segments.some(({ entries }) =>
    entries.some(({ part: { sign } }) =>
      sign.is === 'job' ? sign.works.includes('oil_change') : sign.is === 'thing' && sign.thing === 'filter',
    ),
  );
  for (const segment of segments)
    segment.actions.forEach(({ action, at, text }, index) => {
      if (action !== 'fill') return;
      const liters = segment.parts.map(({ amount }) => amounts[amount]?.liters ?? 0).find((size) => size > 0);
      const isMuch = liters !== undefined && liters >= changeLiters;
      const isLittle = liters !== undefined && liters < changeLiters;
      if (drained.test(said) || isChange || isMuch)
        segment.actions[index] = { action: isLittle ? 'top_up' : 'renew', at, text };
      else if (toTheMark.test(said) || isLittle) segment.actions[index] = { action: 'top_up', at, text };
    });
}
