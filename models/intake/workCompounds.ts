import { isNamed } from './workClauses.ts';
import type { Segment } from './workSegment.ts';
import type { Part } from './workSigns.ts';

/** English puts what it is after what it is of: an oil pressure gizmo is no oil. */
const englishHead =
  /\b(oil|chains?|belt|phasers?|engine|filters?|filt|motor|meter|cluster|timing|cam|ckp|cmp|thermostat|pcv|ocv|solenoids?|sensors?|valve|tensioners?|guides?|screens?|lof|lube|change|service)$/;
const noAfter = /\b(coolant|antifreeze|brake|refrigerante|kuhlmittel)\b/;

/** Things that name the place of another: a timing chain tensioner is no chain. */
const modifies: Readonly<Record<string, readonly string[]>> = {
  timing_set: ['tensioner_guides', 'cam_sensor'],
  bare_chain: ['tensioner_guides'],
  bare_timing: ['tensioner_guides', 'bare_chain', 'belt'],
  phaser: ['oil_control_solenoid', 'screen'],
  oil_control_solenoid: ['screen', 'filter', 'bare_filter'],
  engine: ['thermostat', 'oil', 'filter', 'bare_filter', 'cam_sensor', 'crank_sensor', 'ventilation_valve'],
  oil: ['filter', 'bare_filter', 'oil_level'],
};

const ofWord =
  /^(for|of|on|from|der|des|fur|pour|para|voor|de|del|do|da|du|van|von|vom|til|till|della|dello)$/;

/** "A filter for grandma's car": it says where or when, not what it is a filter of. */
const whereWord = /^(for|on|from|in|at|to|by|with|per|auf|bei|beim|im|pour|sur|para|en|op|bij|na|pa|pri)$/;

const hasEngine = /^(?:generator|compressor|reefer|apu)/;
const romanceOf = /^(a|d|de|del|di|do|dell)$/;

/** Things whose word is used for parts of many others. */
const generic = new Set([
  'oil',
  'bare_filter',
  'bare_screen',
  'tensioner_guides',
  'thermostat',
  'meter',
  'bare_timing',
  'bare_chain',
  'bare_solenoid',
]);

function beside(parts: readonly Part[], at: number, step: 1 | -1, over: readonly string[]): Part | undefined {
  let next = at + step;
  while (parts[next] !== undefined && over.includes(parts[next]?.sign.is ?? '')) next += step;
  return parts[next];
}

/** "Oil change 6 qt with filter". */
function joinedOilChange(parts: readonly Part[], at: number): Part | null {
  const link = beside(parts, at, -1, ['filler', 'link', 'action']);
  if (link?.sign.is !== 'join') return null;
  const job = beside(parts, parts.indexOf(link), -1, ['amount', 'grade', 'filler', 'number']);
  return job?.sign.is === 'job' && job.sign.works.includes('oil_change') ? job : null;
}

/** Drops what turns out to be part of another thing: gearbox oil, oil filter housing, timing chain cover. */
export function dropCompounds(parts: readonly Part[], segments: readonly Segment[]): void {
  const hasGrade = parts.some(({ sign }) => sign.is === 'grade');
  for (const { entries, actions } of segments)
    for (const entry of entries) {
      const { sign, text } = entry.part;
      const works = sign.is === 'job' ? sign.works : [];
      const isOil =
        works.includes('oil_change') ||
        works.includes('filter') ||
        works.includes('top_up') ||
        (sign.is === 'thing' &&
          (sign.thing === 'oil' || sign.thing === 'filter' || sign.thing === 'bare_filter'));
      const before = beside(parts, entry.at, -1, ['link', 'filler']);
      const after = beside(parts, entry.at, 1, []);
      const english = englishHead.test(text);
      const afterLink = after?.sign.is === 'link' ? beside(parts, entry.at, 1, ['link', 'filler']) : after;
      const isLevel = sign.is === 'thing' && sign.thing === 'oil_level';
      if ((isOil || isLevel) && before?.sign.is === 'oily') entry.dropped = 'foreign';
      // "Final drives: oil changed": a heading says whose oil.
      const isHeaded = parts[entry.at - 1]?.text === ':' || parts[entry.at - 1]?.text === ';';
      if (
        isOil &&
        entry.at === 2 &&
        isHeaded &&
        parts[0]?.sign.is === 'oily' &&
        !hasEngine.test(parts[0].text)
      )
        entry.dropped = 'foreign';
      // "Joint de carter d'huile": what stands before it is of the oil, and none of ours.
      const owned = parts[entry.at - 2]?.sign.is;
      if (
        isOil &&
        parts[entry.at - 1]?.sign.is === 'link' &&
        romanceOf.test(parts[entry.at - 1]?.text ?? '') &&
        actions.every(({ action }) => action !== 'top_up') &&
        (owned === 'foreign' || owned === 'unknown' || owned === 'plain')
      )
        entry.dropped = 'foreign';
      // "Transmission fluid and filter": the filter is the transmission's.
      const joined = beside(parts, entry.at, -1, ['join', 'link', 'filler', 'amount', 'grade']);
      if (sign.is === 'thing' && sign.thing === 'bare_filter' && joined?.sign.is === 'oily')
        entry.dropped = 'foreign';
      // "Lost oil from loose filter, added 3 l": it only says where.
      const fromAt = parts[entry.at - 1]?.sign.is === 'symptom' ? entry.at - 2 : entry.at - 1;
      if (sign.is === 'thing' && sign.thing === 'bare_filter' && parts[fromAt]?.text === 'from')
        if (actions.length === 0) entry.dropped ??= 'foreign';
      const touching = parts[entry.at - 1]?.sign.is;
      const change = joinedOilChange(parts, entry.at);
      if (sign.is === 'thing' && sign.thing === 'bare_filter' && change !== null) {
        const named = segments.flatMap((each) => each.entries).find(({ part }) => part === change);
        if (named?.dropped === 'foreign') entry.dropped = 'foreign';
        else entry.given = 'renew';
      }
      // "New tensioner for the cam chain": what stands behind says which tensioner.
      const linked = parts[entry.at - 1];
      const owner = beside(parts, entry.at, -1, ['link', 'filler']);
      if (
        sign.is === 'thing' &&
        linked?.sign.is === 'link' &&
        owner?.sign.is === 'thing' &&
        (ofWord.test(linked.text) || ofWord.test(parts[entry.at - 2]?.text ?? '')) &&
        modifies[sign.thing]?.includes(owner.sign.thing) === true
      )
        entry.dropped = 'foreign';
      // "Tensioner (timing chain)": what stands in brackets says of what.
      const bracketed = parts[entry.at - 2];
      if (
        sign.is === 'thing' &&
        linked?.text === '(' &&
        after?.text === ')' &&
        bracketed?.sign.is === 'thing' &&
        modifies[sign.thing]?.includes(bracketed.sign.thing) === true
      )
        entry.dropped = 'foreign';
      // "Fire pump engine: oil and filter": a heading says where.
      if (
        sign.is === 'thing' &&
        sign.thing === 'engine' &&
        /^[:;(]$/.test(after?.text ?? '') &&
        /^(?:engine|motor)s?$/.test(text) &&
        actions.every(({ action }) => action !== 'renew')
      )
        if (
          parts
            .slice(entry.at)
            .some((part) => part.sign.is === 'grade' || (isNamed(part) && part !== entry.part))
        )
          entry.dropped ??= 'foreign';
      // "0W-20, 4 qt, white filter": beside a grade a filter of any make is the oil's.
      const isByGrade =
        sign.is === 'thing' && sign.thing === 'bare_filter' && touching === 'unknown' && hasGrade;
      if (isByGrade) entry.sure *= 0.9;
      const isModified = touching === 'unknown' || touching === 'foreign' || touching === 'plain';
      if (english && isModified && !isByGrade && !/\blof\b/.test(text)) {
        if (sign.is === 'thing' && (generic.has(sign.thing) || text === 'motor') && touching !== 'unknown')
          entry.dropped = 'foreign';
        else if (
          text === 'motor' ||
          (sign.is === 'thing' &&
            (sign.thing === 'bare_filter' || sign.thing === 'meter' || sign.thing === 'bare_screen'))
        )
          entry.dropped = 'foreign';
        else entry.sure *= 0.83;
      }
      if (
        sign.is === 'thing' &&
        sign.thing === 'bare_filter' &&
        (afterLink?.sign.is === 'foreign' ||
          (afterLink?.sign.is === 'unknown' && !whereWord.test(after?.text ?? '')) ||
          afterLink?.sign.is === 'oily')
      )
        entry.dropped = 'foreign';
      if (
        sign.is === 'job' &&
        english &&
        isOil &&
        !/\blof\b/.test(text) &&
        (after?.sign.is === 'unknown' || after?.sign.is === 'plain')
      )
        entry.sure *= 0.83;
      if (
        isOil &&
        afterLink?.sign.is === 'oily' &&
        !noAfter.test(afterLink.text) &&
        (after?.sign.is === 'link' || !english)
      )
        entry.dropped = 'foreign';
      if (isOil && after?.sign.is === 'oily' && english) entry.sure *= 0.65;
      const reached = beside(parts, entry.at, 1, ['filler', 'link']);
      const told = beside(parts, entry.at, -1, ['filler', 'link', 'bank', 'grade', 'amount']);
      if (sign.is === 'thing' && reached?.sign.is === 'fine' && told?.sign.is !== 'action')
        entry.dropped ??= 'fine';
      if (
        sign.is === 'thing' &&
        text !== 'chains' &&
        after?.sign.is === 'thing' &&
        modifies[sign.thing]?.includes(after.sign.thing) === true
      )
        entry.dropped = 'foreign';
      if (sign.is === 'job' || !english) continue;
      if (after?.sign.is === 'foreign' && !/^(belts?|tires?|tyres?|exhaust|intake)$/.test(after.text))
        entry.dropped = 'foreign';
      if (after?.sign.is === 'unknown' || after?.sign.is === 'plain') entry.sure *= 0.6;
    }
}
