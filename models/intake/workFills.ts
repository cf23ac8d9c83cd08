import type { Amount } from './workAmounts.ts';
import type { Segment } from './workSegment.ts';

/** More than is ever added between changes of a car's or van's engine. */
const changeLiters = 2.5;

/** "Put in 2 qts" as well as "filled": which of the two it was is open. */
const isFill = ({ action, text }: { readonly action: string; readonly text: string }) =>
  action === 'fill' ||
  (action === 'renew' && text === 'put in') ||
  (action === 'top_up' && /^(aufgef|fyll|fyl|lagt|let|pour|put|add|dump)/.test(text));

const drained =
  /\b(drain|drained|emptied|dump|dumped|abgelassen|motorol abgelassen|escoado|golit|tappat ur|tappet|aftappet|slili|slito|slita|zlita|zlili|spustili|leeresztve|abgesaugt|vidange|vidangee|vaciado|svuotato|afgetapt|spuszczono|tappad|new filter|filter change)\b/;
const notDrained = /\b(?:no|not|without|never|w o) (?:oil )?drain(?:ed)?\b|\bdrain plug\b|\bdumped in\b/g;
const toTheMark =
  /\b(mark|max|maximum|to full|full line|to level|up to level|to correct level|low|between|maximo|massimo|niveau|nivel|livello|peil|niva|stick|dipstick|run dry|ran dry|ran out|burning oil|burns oil|burn oil|off the stick|nothing on|lost|what was lost|make ?up|short|between runs|oil light|oil can light|down on oil|uses oil|using oil|leaking|leak|leaks)\b/;

/**
 * Says of "filled" and "refilled" which of the two it was: after draining, or with a change's amount, the oil is new;
 * up to the mark, or with little, it was topped up. What stays open is left as `fill`.
 */
export function settleFills(segments: readonly Segment[], amounts: readonly Amount[]): void {
  if (!segments.some(({ actions }) => actions.some(isFill))) return;
  const said = segments.flatMap(({ parts }) => parts.map(({ text }) => text)).join(' ');
  const isDrained = drained.test(said.replace(notDrained, ' '));
  const isChange = segments.some(({ entries }) =>
    entries.some(({ part: { sign } }) =>
      sign.is === 'job' ? sign.works.includes('oil_change') : sign.is === 'thing' && sign.thing === 'filter',
    ),
  );
  for (const segment of segments)
    segment.actions.forEach((done, index) => {
      const { action, at, text } = done;
      const liters = segment.parts.map(({ amount }) => amounts[amount]?.liters ?? 0).find((size) => size > 0);
      if (!isFill(done) || (action !== 'fill' && liters === undefined)) return;
      const isPoured = action === 'top_up' && /^(pour|put|add|dump)/.test(text);
      if (isPoured && !(liters !== undefined && liters >= changeLiters && isDrained)) return;
      const isMuch = liters !== undefined && liters >= changeLiters;
      const isLittle = liters !== undefined && liters < changeLiters;
      // "Stick dry, put in 5 qts": more than is common, and still an addition.
      const isAddition = toTheMark.test(said) && liters !== undefined;
      if (isAddition && !isChange && !isDrained) segment.actions[index] = { action: 'top_up', at, text };
      else if (isDrained || isChange || isMuch)
        segment.actions[index] = { action: isLittle ? 'top_up' : 'renew', at, text };
      else if (toTheMark.test(said) || isLittle) segment.actions[index] = { action: 'top_up', at, text };
    });
}
