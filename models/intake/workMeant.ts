import type { Part } from './workSigns.ts';

/** Family words by which a later clause calls a thing of ours again: "sensor", "belt", "module". */
const familyWord =
  /^(sensor|valve|solenoid|belt|adjuster|actuator|gear|module|cluster|gauge|kit|set|phaser|unit)s?$/;
const mayStand: ReadonlySet<string> = new Set(['foreign', 'filler', 'plain', 'unknown', 'thing']);
/** A piece of a sensor names it too: "crank sensor wire rubbed through". */
const sensorPiece = /^(cam|crank)(?:shaft)?(?: pos(?:ition)?)? sensor\b/;

const ends = ({ sign }: Part) => sign.is === 'stop';

/** Its clause says that something was renewed, and nothing that undoes it. */
function isRenewed(parts: readonly Part[], at: number): boolean {
  let from = at;
  while (from > 0 && !ends(parts[from - 1]!)) from -= 1;
  let to = at;
  while (to < parts.length && !ends(parts[to]!)) to += 1;
  const clause = parts.slice(from, to);
  return (
    clause.some(({ sign }) => sign.is === 'action' && sign.action === 'renew') &&
    !clause.some(({ sign }) => sign.is === 'undone' || sign.is === 'refused' || sign.is === 'ahead')
  );
}

/** Codes of the circuits of both sensors (SAE J2012): "P0341: sensor replaced". */
const sensorCodes: readonly (readonly [RegExp, string])[] = [
  [/^p03(?:3[5-9]|8[5-9])$/, 'crank_sensor'],
  [/^p03(?:4[0-4]|6[5-9]|9[0-4])$/, 'cam_sensor'],
];

function thingMeant(part: Part, word: string, isOurs: boolean): string | null {
  const { sign, text } = part;
  if (word === 'sensor') for (const [code, thing] of sensorCodes) if (code.test(text)) return thing;
  // "Crank signal lost, sensor replaced".
  if (word === 'sensor' && sign.is === 'thing' && /^(cam|crank)_sensor$/.test(sign.thing)) return sign.thing;
  // "Timing belt tensioner noisy, replaced belt".
  if (word === 'belt' && sign.is === 'foreign' && /^(?:timing|cam) ?belt\b/.test(text)) return 'belt';
  if (word === 'unit' && isOurs && sign.is === 'thing' && sign.thing === 'meter') return 'meter';
  // "VVT solenoid connector burnt, solenoid replaced too".
  const isPiece = sign.is === 'foreign' && /^(?:vvt|vct|ocv|oil control)\b.*\bsolenoids?\b/.test(text);
  const isSolenoid = sign.is === 'thing' && sign.thing === 'oil_control_solenoid';
  if (word === 'solenoid') return isPiece || isSolenoid ? 'oil_control_solenoid' : null;
  // "OCV wiring pin broke, replaced valve".
  const isValve = sign.is === 'thing' && /^(oil_control_solenoid|ventilation_valve)$/.test(sign.thing);
  if (word === 'valve' && isValve && /\b(ocv|pcv|ccv)\b/.test(text)) return sign.thing;
  // "Checked chain, stretched, renewed set".
  if (
    (word === 'set' || word === 'kit') &&
    sign.is === 'thing' &&
    /^(?:timing_set|bare_chain|belt)$/.test(sign.thing)
  )
    return sign.thing === 'belt' ? 'belt' : 'timing_set';
  const hasWord = text.split(' ').some((each) => each.replace(/s$/, '') === word);
  if (!hasWord || !text.includes(' ')) return null;
  if (sign.is === 'thing') return sign.thing;
  const piece = sign.is === 'foreign' ? sensorPiece.exec(text) : null;
  return piece === null ? null : `${piece[1] ?? ''}_sensor`;
}

const isFilterPart = ({ sign, text }: Part) =>
  text === 'wrong filter' ||
  (sign.is === 'thing' && (sign.thing === 'filter' || sign.thing === 'bare_filter'));

/** "Wrong filter fitted by others, put correct one on": it is the filter. */
const isRightOne = (parts: readonly Part[], at: number) =>
  parts[at]?.text === 'one' &&
  /^(?:correct|right|proper|genuine)$/.test(parts[at - 1]?.text ?? '') &&
  parts.some(({ text }) => /^wrong\b/.test(text));

/** "Sampled the oil, then changed it": it is the oil. */
function isSampledOil(parts: readonly Part[], at: number): boolean {
  const done = parts[at - 1];
  if (parts[at]?.text !== 'it' || done?.sign.is !== 'action' || done.sign.action !== 'renew') return false;
  const named = parts
    .slice(0, at)
    .findLast(({ sign }) => sign.is === 'thing' || sign.is === 'job' || sign.is === 'foreign');
  return (
    named?.sign.is === 'job' &&
    named.sign.works.includes('inspection') &&
    /\b(?:oil|sampled?)\b/.test(named.text)
  );
}

/**
 * "Timing belt broke, head rebuilt, new belt": a family word alone that is renewed means the thing of ours that the
 * text gave that word to before, where it gave it to only one.
 */
export function settleMeant(parts: readonly Part[]): Part[] {
  const out = [...parts];
  parts.forEach((part, at) => {
    const filter = isRightOne(parts, at) ? parts.slice(0, at).findLast(isFilterPart) : undefined;
    if (filter !== undefined) out[at] = { ...part, sign: { is: 'thing', thing: 'filter' } };
    if (isSampledOil(parts, at)) out[at] = { ...part, sign: { is: 'thing', thing: 'oil' } };
    const word = familyWord.exec(part.text.replace(/^(?:new|exchange|reman|used|replacement) /, ''))?.[1];
    if (word === undefined || !mayStand.has(part.sign.is) || !isRenewed(parts, at)) return;
    // "Guide set": it is of its own kind.
    if (word === 'set' && parts[at - 1]?.sign.is === 'thing') return;
    const named = new Set<string>();
    for (const before of parts.slice(0, at)) {
      const thing = thingMeant(before, word, part.sign.is === 'thing');
      if (thing !== null) named.add(thing);
      else if (before.sign.is === 'foreign' && before.text.endsWith(` ${word}`)) named.add('another');
    }
    const [only, more] = named;
    if (only === undefined || more !== undefined || only === 'another') return;
    if (part.sign.is === 'thing' && part.sign.thing === only) return;
    out[at] = { ...part, sign: { is: 'thing', thing: only } };
  });
  return out;
}
