import { gradeIn } from './gradeText.ts';
import { numberWords, plainAmounts } from './workPlainAmounts.ts';
import { unitFor } from './unitWords.ts';

/** An amount of fluid named in a text. */
export interface Amount {
  readonly liters: number;
}

/** A text with amounts, grade and bank taken out and replaced by marks: `#0` for the first amount, `#g`, `#b`. */
export interface MarkedText {
  readonly text: string;
  readonly amounts: readonly Amount[];
  readonly grade: string | null;
  readonly bank: string | null;
}

const amount =
  /(?:(\d+)\s*x\s*)?(\d+\s+\d\/\d|\d\/\d|\d+(?:[.,]\d+)?|\b(?:half|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|twenty|ein|eine|un|une|uno|zwei|deux|dos|drei|vier|funf|sechs|trois|quatre|cinq|tres|cuatro|cinco|seis|siete|ocho)(?: an?| us)?)\s*-?\s*(?:(?:extra|more|additional|full)\s+)?(quarts?|qts?|q|litern|liters?|litres?|litros?|litri|litry|litru|litra|litraa|litrow|litara|litriv|litrov|litr|litre|litros|lit|ltrs?|lts?|l|gallons?|gals?|gl|pints?|pts?|ml|dl|cuartos?|galones|galon)\b(?:\.(?!\s+[a-z]{3}))?/g;
const grade = /(?:sae\s*-?\s*)?\b\d{1,2}\s?w\s?[-–/]?\s?(?:\d{2}|8)\b|\bsae\s*-?\s*\d{1,2}\b/g;
const bothBanks =
  /\b(?:both|two|beide|les deux|ambos|ambas|entrambe|beiden?)\s+(?:cyl(?:inder)?\s+)?(?:banks?|zylinderbanke|banke|bancs?|bancos|bancadas|bancate|sides|seiten)\b|\b(?:banks?|b)\s*#?\s*1\s*(?:and|&|\+|\/|,|und|et|y|e)\s*(?:banks?|b)?\s*#?\s*2\b/g;
const oneBank =
  /\b(?:bank|banc|banco|bancata|bancada|zylinderbank)\s*#?\s*([12]|one|two)\b|\bbn?k?([12])(?:s\d)?\b/g;

/** Short and foreign names of the measures. */
const plainUnits: Readonly<Record<string, string>> = {
  q: 'qt',
  lt: 'l',
  lts: 'l',
  ltr: 'l',
  ltrs: 'l',
  litr: 'l',
  litern: 'l',
  litru: 'l',
  litra: 'l',
  litraa: 'l',
  litrow: 'l',
  litara: 'l',
  litrov: 'l',
  litriv: 'l',
  lit: 'l',
  gl: 'gal',
  cuarto: 'qt',
  cuartos: 'qt',
  galon: 'gal',
  galones: 'gal',
};

function toNumber(text: string): number {
  const bare = text.trim().replace(/ an?$/, '');
  const word = numberWords[bare];
  if (word !== undefined) return word;
  let sum = 0;
  for (const part of bare.split(/\s+/)) {
    const [above, below] = part.split('/');
    sum += below === undefined ? Number(part.replace(',', '.')) : Number(above) / Number(below);
  }
  return sum;
}

const changesTo =
  /^\s*(?:-+>|=>|to|for|nach|auf|vers|a|na)\s*$|\b(?:drained|went (?:up |down )?to|changed to|switched to|(?:swapped|exchanged|replaced) (?:out )?(?:for|with|by)|up to|down to|now on|refilled)\b/;

/** Takes amounts, grade and bank out of a folded text. */
export function markAmounts(folded: string): MarkedText {
  let bank: string | null = null;
  let text = plainAmounts(folded).replace(bothBanks, () => {
    bank = 'both';
    return ' #b ';
  });
  text = text.replace(oneBank, (_, word: string | undefined, short: string | undefined) => {
    const number = (word ?? short ?? '').replace('one', '1').replace('two', '2');
    bank = bank === null || bank === number ? number : 'both';
    return ' #b ';
  });
  let found: string | null = null;
  let end = 0;
  text = text.replace(grade, (match, ...rest: readonly unknown[]) => {
    const named = gradeIn(match);
    if (named === null) return match;
    const at = Number(rest.find((each) => typeof each === 'number'));
    // "5W-20 -> 0W-20": what is in now is named last.
    if (found === null || changesTo.test(text.slice(end, at))) found = named;
    end = at + match.length;
    return ' #g ';
  });
  const amounts: Amount[] = [];
  text = text.replace(amount, (match, times: string | undefined, number: string, unit: string) => {
    const word = unitFor(plainUnits[unit] ?? unit, 'L');
    const value = toNumber(number) * (times === undefined ? 1 : Number(times));
    if (word === null || !Number.isFinite(value) || value <= 0) return match;
    amounts.push({ liters: Number((value * word.factor).toPrecision(9)) });
    return ` #${amounts.length - 1} `;
  });
  return { text, amounts, grade: found, bank };
}
