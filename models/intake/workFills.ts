import type { Amount } from './workAmounts.ts';
import { hasOwnForeign, isDenied } from './workBeside.ts';
import type { Segment } from './workSegment.ts';

/** More than is ever added between changes of a car's or van's engine. */
const changeLiters = 2.5;

/** "Put in 2 qts" as well as "filled": which of the two it was is open. */
const isFill = ({ action, text }: { readonly action: string; readonly text: string }) =>
  action === 'fill' ||
  (action === 'renew' && text === 'put in') ||
  (action === 'top_up' && /^(aufgef|fyll|fyl|lagt|let|pour|put|add|dump)/.test(text));

/** See `workTurns`: added without draining. */
const undrained = 'undrained';
const putInto = /^(?:put|put in|pour|poured|poured in|dumped in|tipped in|gave|gave it)$/;

const drained =
  /\b(drain|drained|draining|sucked out|suctioned out|vacuumed out|extracted|old oil out|emptied|dump|dumped|abgelassen|motorol abgelassen|escoado|golit|tappat ur|tappet|aftappet|slili|slito|slita|zlita|zlili|spustili|leeresztve|abgesaugt|vidange|vidangee|vaciado|svuotato|afgetapt|spuszczono|tappad|let out|new filter|filter change)\b/;
const notDrained = /\b(?:no|not|without|never|w o) (?:oil )?drain(?:ed|ing)?\b|\bdrain plug\b|\bdumped in\b/g;
/** It was lost, not drained: beside it a new filter tells of no change. */
const ranOut = /\b(?:leaked out|ran out|run out|lost|spilled|spilt)\b/;
const toTheMark =
  /\b(mark|max|maximum|to full|full line|to level|up to level|to correct level|low|between|maximo|massimo|niveau|nivel|livello|peil|niva|stick|dipstick|run dry|ran dry|ran out|burning oil|burns oil|burn oil|off the stick|nothing on|lost|what was lost|make ?up|short|between runs|oil light|oil can light|down on oil|uses oil|using oil|leaking|leak|leaks)\b/;

const upToMark =
  /\b(?:(?:to|at) (?:the )?(?:full|max|top|upper|full level)(?: (?:mark|line|level))?|to (?:the )?(?:mark|line|proper level|right level|correct level|spec level)|bring(?:s|ing)? (?:it |level |oil |back |stick |the )*up|brought (?:it |level |oil |back )*up|make up|up on stick|on the stick)\b/;
const wasLow =
  /#\d+ (?:low|down|short)\b|\b(?:low(?! (?:mil|beam|temp|sap|ash|speed))|down|dry|short(?! block)|(?:at|on|below|oil|sub) min(?:imum)?|eats|burns|burner|thirsty|manquait)\b/;
const opened = /^(?:filter|bare_filter|timing_set|phaser|engine)$/;

/** A filter, a timing set or another engine is named: what is filled then belongs to that work. */
const isRepair = (segments: readonly Segment[]) =>
  segments.some(({ entries }) =>
    entries.some(({ part: { sign, text } }) =>
      sign.is === 'job'
        ? sign.works.some((work) => work === 'oil_change' || work === 'engine')
        : sign.is === 'thing' && opened.test(sign.thing) && text !== 'engine' && text !== 'motor',
    ),
  );

const tookWord = /^(?:took|takes|needed|needs|used|in|went in|got|gave|give)$/;

/** "Took 3 qts to bring up", "oil to full mark", "2 qt low, filled": oil up to the mark and no word of a change is a top-up. */
function settleMark(segment: Segment, said: string, amounts: readonly Amount[]): void {
  const { parts, actions, entries } = segment;
  if (actions.length > 0 || hasOwnForeign(segment) || isDenied(segment)) return;
  if (
    entries.some(
      ({ part: { sign } }) =>
        sign.is === 'job' || !/^(oil|engine)/.test(sign.is === 'thing' ? sign.thing : ''),
    )
  )
    return;
  const own = parts.map(({ text }) => text).join(' ');
  const amount = parts.findIndex(({ amount: at }) => amounts[at] !== undefined);
  const isOil = entries.length > 0 || parts.some(({ sign }) => sign.is === 'grade');
  const isFilledUp =
    amount >= 0
      ? upToMark.test(said) ||
        said.includes(undrained) ||
        (isOil && wasLow.test(said)) ||
        (wasLow.test(said) && parts.some(({ text }) => tookWord.test(text)))
      : isOil && upToMark.test(own) && !wasLow.test(own);
  if (!isFilledUp) return;
  const at = Math.max(0, amount);
  segment.actions.push({ action: 'top_up', at: entries[0]?.at ?? at, text: parts[at]?.text ?? '' });
}

/**
 * Says of "filled" and "refilled" which of the two it was: after draining, or with a change's amount, the oil is new;
 * up to the mark, or with little, it was topped up. What stays open is left as `fill`.
 */
export function settleFills(segments: readonly Segment[], amounts: readonly Amount[]): void {
  const said = segments.flatMap(({ parts }) => parts.map(({ text }) => text)).join(' ');
  const told = said.replace(notDrained, ' ');
  const isDrained = drained.test(
    ranOut.test(said) ? told.replace(/\b(?:new filter|filter change)\b/g, ' ') : told,
  );
  const isChange = segments.some(({ entries }) =>
    entries.some(({ part: { sign } }) =>
      sign.is === 'job' ? sign.works.includes('oil_change') : sign.is === 'thing' && sign.thing === 'filter',
    ),
  );
  if (!isDrained && !isRepair(segments)) for (const segment of segments) settleMark(segment, said, amounts);
  if (!segments.some(({ actions }) => actions.some(isFill))) return;
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
      // "Put 2 gal in the motor": added without draining, whatever the amount.
      else if (isMuch && !isDrained && !isRepair(segments) && putInto.test(text))
        segment.actions[index] = { action: 'top_up', at, text };
      else if (said.includes(undrained) && !isRepair(segments) && liters !== undefined)
        segment.actions[index] = { action: 'top_up', at, text };
      else if (isDrained || isChange || isMuch)
        segment.actions[index] = { action: isLittle ? 'top_up' : 'renew', at, text };
      else if (toTheMark.test(said) || isLittle) segment.actions[index] = { action: 'top_up', at, text };
    });
}
