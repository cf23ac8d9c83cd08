import { wholeCompounds, withLeadingHeads, withSharedHeads, type Token } from './workHeads.ts';
import { mended, twoWords } from './workSpelling.ts';
import { added } from './workAdded.ts';
import { asked } from './workAsked.ts';
import { named } from './workNamed.ts';
import { otherDays } from './workOtherDays.ts';
import { plainSpeech } from './workPlainSpeech.ts';
import { turns } from './workTurns.ts';
import type { Sign, WorkWords } from './workWords.ts';

/** One part of a work text with its meaning. */
export interface Part {
  readonly sign: Sign | { readonly is: 'amount' | 'grade' | 'bank' | 'number' | 'unknown' | 'stop' };
  readonly text: string;
  /** position of the amount in the list, or -1 */
  readonly amount: number;
  /** false when a misspelling was mended to get here */
  readonly exact: boolean;
}

/** Written forms that the catalog's words cannot hold. */
const shorthand: readonly (readonly [RegExp, string])[] = [
  // Lists to be ticked: "[x] oil [ ] filter", "oil yes / filter no".
  [/\[\s*\]|\(\s\)/g, ' , without '],
  [/\[\s*[xvy]\s*\]|\(x\)/g, ' , '],
  // "Eng oil TU": topped up.
  [/\btu\s+(?=(?:eng|engine)? ?oil\b)/g, ' topped '],
  [/\b(oil|washer|coolant)\s+tu\b/g, '$1 topped '],
  [/\?\s*no\b(?=\s*(?:[.;!]|$))/g, ' not done '],
  [/\b(chk|ck|rplc|repl|insp|chg|top)'d\b/g, '$1d'],
  [/\bw(?=\s+(?:new\s+)?(?:oil\s+)?filt)/g, ' with '],
  [/\b(filter|oil|change|lof) no(?=\s*(?:[/,;|)]|$))/g, '$1 not done , '],
  [/\br\s*[&+/]\s*r(?:'d|ed)?\b/g, ' r and r '],
  // The full stop after a plain one ends a sentence.
  [/\bl\.\s*o\.\s*f\b/g, ' lof '],
  [/\bl(?:\s*[.,/&+-]\s*)?o(?:\s*[.,/&+-]\s*)?f\b/g, ' lof '],
  [/\bcheck engine (?=oil)/g, 'check '],
  [/\bo\s*[/&+]\s*f\b/g, ' oil and filter '],
  // Service categories of oils: CK-4 is no check.
  [/\b(?:ck|cj|ci|ch|fa|gf)\s*-?\s*[1-9][a-z]?\b(?:\s*plus\b)?/g, ' '],
  [/\b([a-z])\.([a-z])\.([a-z])\b\.?/g, ' $1$2$3 '],
  [/\bp\.?\s?m\.?\s*[-–#/"']*\s*([abcd])\b/g, ' pm$1 '],
  [/\bp\.?\s?m\.?\s*[-–#/]?\s*([123])\b/g, ' pm$1 '],
  [/\bpm1\b/g, ' pma '],
  [/\bpm[23]\b/g, ' pmb '],
  [/\b([abcd])\s*-\s*(service|svc)\b/g, ' $1 $2 '],
  [/\bw\s*\/\s*o\b/g, ' without '],
  [/\bw\s*\//g, ' with '],
  // Put on a day to come: "LOF scheduled 3/14".
  [
    /(?<!\b(?:as|per|is|was|maint|maintenance|pm|service|svc|book|oem|factory|fleet|by|on) )\b(?:re)?sched(?:uled)?\.?(?= (?:for |on |to )?(?:\d{1,2}\/\d|mon|tue|wed|thu|fri|sat|sun|next|tomorrow|the \d)|\s*$|\s*[,.;](?!\s*(?:done|did|perf|compl|oil|eng|new)))/g,
    ' rescheduled ',
  ],
  // A hyphen of "O-FLTR" is none of German "ohne".
  [/\bo-\s?(?=f(?:ilter|lte?r|ilt)s?\b)/g, ' oil '],
  // "OF" behind an amount: "6 quarts, OF".
  [/(#\d+\s*[,+&]\s*)of\b(?=\s*(?:[;,.]|$))/g, '$1oil filter '],
  [/\bf\s?\/\s?ch(?:g|ange|ng)\b/g, ' filter change '],
  [/\bo\s?\/\s?ch(?:g|ange|ng)\b/g, ' oil change '],
  [/\boil'?d\b/g, ' oiled '],
  [/\bt\s*-\s*stat\b/g, ' thermostat '],
  [/\bt\s*[/.-]\s*(chain|belt|stat)\b/g, ' timing $1 '],
  [/\btiming stat\b/g, ' thermostat '],
  [/\bo\s*\/\s*c\b/g, ' oil change '],
  [/\ba\s*\/\s*c\b/g, ' ac '],
  [/\bn\s*\/\s*a\b/g, ' not '],
  [/\b(oil|oli|0il|oill)\b/g, ' oil '],
  [/\bqty\b/g, ' '],
  // German "without filter" in short.
  [/\bo\.\s*(?=(?:ol)?filter)/g, ' ohne '],
  [/\bb\s*\/\s*o\b/g, ' back order '],
  [/\bt\s*\/\s*c\s+(?=kit|set|tens|guide)/g, ' timing chain '],
  [/\bch'?g?'d\b/g, ' changed '],
  // Times of day: "3 PM" is no inspection.
  [
    /\b\d{1,2}:\d{2}(?:\s?(?:[ap]m\b|[ap]\.m\.))?|\b\d{1,2}\s?(?:am\b|a\.m\.)|(?<!\b(?:level|lvl|lv|class|type|no|k)\s)\b\d{1,2}\s?(?:pm\b|p\.m\.)(?!\s*[-#]?\s*[abc1-3]\b|\s+(?:w|s(?:erv|vc)|insp))/g,
    ' ',
  ],
  [/\b(?:nothing|none|no oil|not) (?:was )?added\b|\badded (?:nothing|none)\b/g, ' , checked oil level , '],
  // Dates, and how many pieces: "3/14", "x2", "2 ea".
  [/\b\d{1,2}\/\d{1,2}(?:\/\d{2,4})?\b/g, ' '],
  [/\bx\s?\d{1,2}\b|\b\d{1,2}\s?x\b(?!\s*(?:sched|interv))|\b\d{1,2}\s+ea\b|\(\d{1,2}x?\)/g, ' , '],
  [/\b(?:but|aber|pero|mais|maar|ale)\b/g, ' , '],
  // "Camshaft position and crankshaft position sensors", "sensors both (cam, crank)".
  [
    /\bcam(?:shaft)?(?: pos(?:ition|n)?\.?)?\s*(?:and|&|\+|\/|,)\s*crank(?:shaft)?(?: pos(?:ition|n)?\.?)?\s+sens?(?:or|r)?s?\b/g,
    ' cam sensor and crank sensor ',
  ],
  [
    /\bcrank(?:shaft)?(?: pos(?:ition|n)?\.?)?\s*(?:and|&|\+|\/|,)\s*cam(?:shaft)?(?: pos(?:ition|n)?\.?)?\s+sens?(?:or|r)?s?\b/g,
    ' crank sensor and cam sensor ',
  ],
  [
    /\b(?:(?:engine )?(?:timing|position)\s+)?sensors?\s*(?:both\s*)?[(:,]?\s*cam(?:shaft)?\s*(?:,|\/|and|&|\+)\s*crank(?:shaft)?\b\)?/g,
    ' cam sensor and crank sensor ',
  ],
  // A parts list puts the family first: "sensor, crank", "belt (timing)".
  [
    /(?<!\b(?:cam|camshaft|crank|crankshaft|position|pos)\.?\s)\bs(?:ens(?:or|r)?s?|nsrs?)\s*[,(:]\s*(cam|camshaft|crank|crankshaft)\b(?:\s*pos(?:ition|n)?\b\.?)?(?!\s*s(?:ens|nsr))\)?/g,
    ' $1 sensor ',
  ],
  [
    /\bsol(?:enoid)?s?\s*[,(:]\s*(vvt|vct|oil control|cam)\b(?!\s*(?:sen|snsr|phas|gear|chain|adj|pos))\)?/g,
    ' $1 solenoid ',
  ],
  [/\b(chain|belt)s?\s*[,(:]\s*timing\b\)?/g, ' timing $1 '],
  [/\bvalve\s*[,(:]\s*(pcv|ocv)\b\)?/g, ' $1 valve '],
  // "LF" among jobs is the lube oil filter, before a thing the left front.
  [
    /(^|[,;:+&]|\b(?:new|and|an?|both|[1-4]|x[1-4]|rplcd?|replaced))\s*lf\b(?=\s*(?:[,.;+&]|and\b|along\b|rplc|repl|chg|chang|$))/g,
    '$1 oil filter ',
  ],
  // A reminder that is set says nothing of the work.
  [
    /\b(?:re)?set (?:the )?(?:svc|service|oil|maint(?:enance)?|pm)?\s*(?:due )?(?:reminder|sticker|light|lt|lamp|msg|message|indicator|monitor|interval)\b/g,
    ' , ',
  ],
  [/\b(?:svc|service|oil) due (?:lt|light|msg|message|lamp|indicator)\b/g, ' , '],
  [/\bdue (?=(?:leak|leaks|leaking|noise|rattle|crack|cracks|wear|age|stalling|low)\b)/g, ' due to '],
  [/\boil press(?:ure)? (?:is |was |at )?(?=\d{2}\b)/g, ' oil pressure reading '],
  [/^\s*plan (?=oil|lof|lube|to\b)/g, ' due '],
  [/\bi\.\s?o\.(?=\s|$)/g, ' io '],
  [/\((crank|cam)(?:shaft)?\)\s*sensor\b/g, ' $1 sensor '],
  [/\bcps\s*\(?(crank|cam)\b\)?/g, ' $1 sensor '],
  [/\bhr\s?mtr\b/g, ' hour meter '],
  [/^\s*(tensioner|guides?)s?,\s*(?:timing|tmg|cam)\s+(?:chain|chn)\b/g, ' timing chain $1 '],
  [/\bo\.\s?c\.(?=\s)/g, ' oil change '],
  // Told of what was done: "installed the set that was ordered last week".
  [
    /\b(?:that|which) (?:was|were|had been|has been) (?:on (?:back ?)?order|back ?ordered|forgotten|booked|ordered|recommended|quoted|declined|skipped|missed|deferred|due|overdue|postponed)\b/g,
    ' ',
  ],
  [/\bno ch(?:an)?g(?:e|es)?\b(?! (?:need|requ|yet|done|made|of|oil|due))|\bno charge\b/g, ' '],
  [/\b(?:vlv|valve)s?,?\s+oil\s+(?:ctrl|ctl|cntl|cntrl|control)\b/g, ' oil control valve '],
  [/\boil\s*,\s*(?:eng|engine|motor)\b(?=\s*(?:[-:.;]|$))/g, ' engine oil '],
  [/\b(?:fltr|filter|flt)\s*,\s*oil\s*(?=[-:]|$)/g, ' oil filter '],
  [/\blubed[\s,]+oiled[\s,]+(?:and\s+)?filtered\b/g, ' lof '],
  [/\blof\s?'?d\b/g, ' lof '],
  // A class of brake fluid, no inspection.
  [/\bdot\s*[345](?:\.1)?\b/g, ' '],
  // The plural says that the oil's is one of the filters.
  [
    /\boil((?:\s*(?:,|and|&|\+|\/)\s*(?:fuel|air|cabin|water|coolant|hydraulic|hyd|trans))+\s+filters)\b/g,
    'oil filter $1',
  ],
  [/-\s+(und|and|et|y|e|en|og|och|i)\b/g, ' $1'],
  [/\s-\s/g, ' ; '],
  [/([a-z])-(?=[a-z])/g, '$1 '],
  [/[&+/]/g, ' and '],
];

const wordOrMark = /#\d+|#g|#b|\d+(?:[.,]\d+)*|[a-z]+(?:\d+[a-z]*)?|[,;:.|()\n!?]/g;

function plural(word: string, words: WorkWords): string | null {
  if (word.length > 4 && word.endsWith('s') && words.known.has(word.slice(0, -1))) return word.slice(0, -1);
  return null;
}

/** Words that end what they name: "6 qt, filt. Tires 80 psi". */
const isHead = /^(?:filters?|gasket|battery|alternator|thermostat)$/;

function tokensOf(text: string, words: WorkWords): Token[] {
  let short = wholeCompounds(text, words);
  for (const [shape, to] of [
    ...otherDays,
    ...asked,
    ...added,
    ...plainSpeech,
    ...named,
    ...turns,
    ...shorthand,
  ])
    short = short.replace(shape, to);
  const found = short.match(wordOrMark) ?? [];
  return found.flatMap((token, at): Token | Token[] => {
    // "cam pos. sensor": the full stop only ends a short form.
    const short = token === '.' ? words.abbreviations.get(found[at - 1] ?? '') : undefined;
    if (short !== undefined && !isHead.test(short)) return [];
    const meant = words.abbreviations.get(token);
    if (meant !== undefined) return { text: meant, exact: true };
    if (!/^[a-z]/.test(token) || words.known.has(token)) return { text: token, exact: true };
    const singular = plural(token, words);
    if (singular !== null) return { text: singular, exact: true };
    const pair = twoWords(token, words);
    if (pair !== null) return pair.map((text) => ({ text, exact: true }));
    const right = mended(token, words);
    return right === null ? { text: token, exact: true } : { text: right, exact: false };
  });
}

/** A trouble code as SAE J2012 writes it: it says why, not what was done. */
export const isFaultCode = (text: string) => /^[pbcu][0-3][0-9a-f]{3}$/.test(text);

function singlePart({ text, exact }: Token): Part {
  const part = (
    is: 'amount' | 'grade' | 'bank' | 'number' | 'unknown' | 'stop' | 'join' | 'filler',
    amount = -1,
  ): Part => ({
    sign: { is },
    text,
    amount,
    exact,
  });
  if (text === '#g') return part('grade');
  if (text === '#b') return part('bank');
  if (text.startsWith('#')) return part('amount', Number(text.slice(1)));
  if (/^\d/.test(text)) return part('number');
  if (isFaultCode(text)) return part('filler');
  if (/^[a-z]/.test(text)) return part(text.length <= 2 ? 'filler' : 'unknown');
  return part(text === ':' ? 'join' : 'stop');
}

/** Splits a folded, marked text into parts with meaning, the longest phrase first. */
export function partsOfWork(text: string, words: WorkWords): Part[] {
  const tokens = withLeadingHeads(withSharedHeads(tokensOf(text, words), words), words);
  const parts: Part[] = [];
  let at = 0;
  while (at < tokens.length) {
    const token = tokens[at];
    if (token === undefined) break;
    let taken = 0;
    for (
      let length = Math.min(words.longest.get(token.text) ?? 0, tokens.length - at);
      length > 0;
      length -= 1
    ) {
      const span = tokens.slice(at, at + length);
      const phrase = span.map((each) => each.text).join(' ');
      const sign =
        words.signs.get(phrase) ?? (phrase.endsWith('s') ? words.signs.get(phrase.slice(0, -1)) : undefined);
      if (sign === undefined) continue;
      parts.push({
        sign,
        text: span.map((each) => each.text).join(' '),
        amount: -1,
        exact: span.every((each) => each.exact),
      });
      taken = length;
      break;
    }
    if (taken === 0) parts.push(singlePart(token));
    at += Math.max(1, taken);
  }
  return parts;
}
