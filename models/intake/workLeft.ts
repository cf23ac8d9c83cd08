import type { Entry, Segment } from './workSegment.ts';
import type { Part } from './workSigns.ts';

const isFilter = ({ part: { sign } }: Entry) =>
  sign.is === 'thing' && (sign.thing === 'filter' || sign.thing === 'bare_filter');

/** Said behind a filter: it stays as it is, or its turn comes another time. */
const staysAfter =
  /^(?:(?:is|was|s|had|has|ist|war|est|on|in|the|same|itself|laut kunde|x|on its own|still|noch|erst|only|nur|we do|we|gets done|they|i|scheduled|planned|due|done) )*(?:left|leave|leaving|stays?|stayed|kept|keep|remains?|untouched|not touched|every (?:other|second|2nd|third)|each second|good|ok|okay|not (?:due|needed|done|changed|replaced)|fine|n a|next|to come|to follow|follows|will follow|later|ordered|on order|coming|tomorrow|was skipped|skipped|io belassen|reused|schedule|interval|belassen|verbleibt|bleibt|marad|maradt|blijft|zat er|sitter kvar|kvar|reste|conserve|gardee?|se queda|queda|quedo|resta|rimane|fica|ficou|zostaje|zostal|zustal|zustava|jai|kaldi|ramane|ostao|ostavili)\b/;
const stillNew =
  /^(?:was|is|s|war|ist|erst|laut kunde)* ?(?:still|noch|almost|nearly|erst|only|quasi) (?:fast |quite |very )?(?:new|neu|recent|fresh)\b/;
const longAgo = /\bago\b/;
const leftBefore =
  /\b(?:left|leave|leaving|kept|keep|keeping|skip|skipped|reused?|reusing)(?: (?:the|his|her|their|my|old|same|existing|its|it s|oil|in|on))*$/;
const sureNew = /\b(?:new|neu)$/;

const saidBefore = (parts: readonly Part[], at: number) =>
  parts
    .slice(Math.max(0, at - 4), at)
    .map(({ sign, text }) => (sign.is === 'stop' || sign.is === 'join' ? '|' : text))
    .join(' ');

const ends = (part: Part | undefined) =>
  part === undefined || part.sign.is === 'stop' || part.sign.is === 'join' || part.sign.is === 'thing';

/** Words behind a part up to the end of its clause, as long as they say what became of it. */
function saidAfter(parts: readonly Part[], at: number): string {
  const said: string[] = [];
  for (let on = at + 1; on < parts.length && said.length < 6 && !ends(parts[on]); on += 1) {
    const { sign, text } = parts[on]!;
    if (sign.is === 'amount' || sign.is === 'number' || sign.is === 'bank') continue;
    said.push(text);
  }
  return said.join(' ');
}

const oilStays =
  /^(?:(?:itself|is|was|s|only|just|still|same|all|in|had|it|has|mi|km|k|miles|days|weeks|months|hours|h|hrs|laut|noch) )*(?:left|stays?|stayed|kept|reused|not touched|not changed|not drained|undrained|untouched|old|fresh|recent|saved|caught|poured back|put back|goes to|to stay|belassen|verbleibt|bleibt|drin|dringelassen|gelassen|conservee?|reutilizado|reutilizada|kvar|resta|queda|quedo|fica|ficou|zostal|zostaje)\b/;
const isOil = ({ part: { sign } }: Entry) => sign.is === 'thing' && sign.thing === 'oil';

/** "New filter, oil itself left in": only where the filter was done. */
function dropLeftOil(parts: readonly Part[], entries: readonly Entry[]): void {
  const isFilterJob = ({ part: { sign } }: Entry) => sign.is === 'job' && sign.works.join() === 'filter';
  if (!entries.some((entry) => (isFilter(entry) || isFilterJob(entry)) && entry.dropped === null)) return;
  for (const entry of entries) {
    if (!isOil(entry) || entry.dropped !== null) continue;
    const isLeft = oilStays.test(saidAfter(parts, entry.at)) || leftBefore.test(saidBefore(parts, entry.at));
    if (isLeft) entry.dropped = 'undone';
  }
}

const driveThing =
  /^(?:timing_set|bare_chain|bare_timing|phaser|tensioner_guides|belt|oil_control_solenoid|bare_solenoid)$/;
const keptBefore =
  /\b(?:kept|keep|keeping|reused?|reusing|re used|retained)(?: (?:the|old|same|existing|original|his|her|its|it s|both))*$/;
const keptAfter =
  /^(?:(?:is|was|s|were|are|itself|the|itself|old|original|same|good|ok|okay|fine|as|set|stretch|still) )*(?:kept|retained|reused|re used|re use|reuse|stays?(?! tight)|stayed|remains?|untouched|not touched|goes back (?:in|on)|went back (?:in|on)|back (?:in|on)(?! (?:road|service|line|track))|left (?:in|on|alone|as is)|sigue|se queda|queda|reste|conservee?|gardee?|bleibt|belassen|blijft|rimane|resta|zostaje|zostal|kvar|fica|marad)\b/;
const chainAfter = /^(?:(?:is|was|s|were|are|ok|good|fine|itself|within spec|in spec) )*left$/;

/** "Guides only, old chain goes back in": what of the drive was kept beside what was renewed. */
function dropKeptDrive(parts: readonly Part[], segments: readonly Segment[]): void {
  const isRenewed = parts.some(({ sign }) => sign.is === 'action' && sign.action === 'renew');
  for (const { entries, actions } of segments)
    for (const entry of entries) {
      const { sign, text } = entry.part;
      if (entry.dropped !== null || sign.is !== 'thing' || !driveThing.test(sign.thing)) continue;
      if (actions.some(({ action, at }) => action === 'renew' && at < entry.at)) continue;
      const after = saidAfter(parts, entry.at);
      const isKept =
        keptBefore.test(saidBefore(parts, entry.at)) ||
        keptAfter.test(after) ||
        (/chain/.test(text) && chainAfter.test(after));
      if (
        isKept &&
        (isRenewed ||
          segments.some((other) => other.entries.some((each) => each !== entry && each.dropped === null)))
      )
        entry.dropped = 'undone';
    }
}

/**
 * Drops a filter that the text says was left in beside an oil change: "filter left", "kept filter", "filter we do every
 * second time". "New filter" and a filter renewed by a word before it stay.
 */
export function dropLeftFilter(parts: readonly Part[], segments: readonly Segment[]): void {
  for (const { entries, actions } of segments)
    for (const entry of entries) {
      if (!isFilter(entry) || entry.dropped !== null) continue;
      const before = saidBefore(parts, entry.at);
      const isRenewedBefore =
        sureNew.test(before) || actions.some(({ action, at }) => action === 'renew' && at < entry.at);
      const after = saidAfter(parts, entry.at);
      const isLeft =
        leftBefore.test(before) ||
        (!isRenewedBefore && (staysAfter.test(after) || stillNew.test(after) || longAgo.test(after)));
      if (isLeft) entry.dropped = 'undone';
    }
  dropKeptDrive(parts, segments);
  dropLeftOil(
    parts,
    segments.flatMap(({ entries }) => entries),
  );
}
