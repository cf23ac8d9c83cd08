import type { WorkWords } from './workWords.ts';

/** A word of a text as it is looked up. */
export interface Token {
  readonly text: string;
  readonly exact: boolean;
}

/** Words that name nothing of ours by themselves. */
const bare: ReadonlySet<string> = new Set(['filler', 'foreign', 'plain']);
const joinWord = /^(and|und|u|et|y|e|en|och|og|i|oder|or)$/;

/** Length of the longest thing or foreign phrase that begins here, 0 for none. */
function phraseLength(tokens: readonly Token[], at: number, words: WorkWords): number {
  const first = tokens[at]?.text ?? '';
  for (let length = words.longest.get(first) ?? 0; length > 1; length -= 1)
    if (
      signOf(
        tokens.slice(at, at + length).map(({ text }) => text),
        words,
      ) !== null
    )
      return length;
  return 0;
}

function signOf(phrase: readonly string[], words: WorkWords): string | null {
  const key = phrase.join(' ');
  const sign = words.signs.get(key) ?? words.signs.get(key.replace(/s$/, ''));
  return sign?.is === 'thing' ? sign.thing : null;
}

/**
 * Gives the first of two things that share their last words these words too: "cam and crank sensors" becomes "cam
 * sensors and crank sensors". A word that means something by itself keeps its meaning.
 */
export function withSharedHeads(tokens: readonly Token[], words: WorkWords): Token[] {
  const out: Token[] = [];
  tokens.forEach((token, at) => {
    out.push(token);
    const own = words.signs.get(token.text);
    if (!/^[a-z]/.test(token.text) || (own !== undefined && !bare.has(own.is))) return;
    if (!joinWord.test(tokens[at + 1]?.text ?? '') && tokens[at + 1]?.text !== ',') return;
    const length = phraseLength(tokens, at + 2, words);
    for (let skip = 1; skip < length; skip += 1) {
      const head = tokens.slice(at + 2 + skip, at + 2 + length);
      if (signOf([token.text, ...head.map(({ text }) => text)], words) === null) continue;
      out.push(...head);
      return;
    }
  });
  return out;
}

/** Wheels of the drive named before them, and no phasers: "cam chain and sprockets". */
const wheels = /^(sprockets?|gears?|pulleys?|rollers?)$/;
const drives: ReadonlySet<string | null> = new Set(['timing_set', 'belt', 'bare_chain']);

const ofWord = /^(de|del|du|des|d|da|do|di|dell|della|van|van de|la|l)$/;

/**
 * Gives the second of two things that share their first word this word too: "capteurs arbre à cames et vilebrequin"
 * becomes "capteurs arbre à cames et capteurs vilebrequin". Only where the second names no thing by itself.
 */
export function withLeadingHeads(tokens: readonly Token[], words: WorkWords): Token[] {
  const out: Token[] = [];
  let head: Token | null = null;
  let headThing: string | null = null;
  for (let at = 0; at < tokens.length;) {
    const length = phraseLength(tokens, at, words);
    const first = tokens[at];
    if (first === undefined) break;
    const follows = joinWord.test(tokens[at - 1]?.text ?? '');
    const isWheel = wheels.test(first.text) && drives.has(headThing);
    if (length === 0 && follows && head !== null && !isWheel && isThingUnder(head, tokens.slice(at), words))
      out.push(head);
    out.push(...tokens.slice(at, at + Math.max(1, length)));
    if (length > 0) {
      head = first;
      headThing = signOf(
        tokens.slice(at, at + length).map(({ text }) => text),
        words,
      );
    } else if (!joinWord.test(first.text)) head = null;
    at += Math.max(1, length);
  }
  return out;
}

function isThingUnder(head: Token, rest: readonly Token[], words: WorkWords): boolean {
  const [first] = rest;
  if (first === undefined || (words.signs.has(first.text) && !ofWord.test(first.text))) return false;
  const longest = words.longest.get(head.text.replace(/s$/, '')) ?? words.longest.get(head.text) ?? 0;
  for (let length = Math.min(longest - 1, rest.length); length > 0; length -= 1) {
    const under = rest.slice(0, length).map(({ text }) => text);
    if (signOf([head.text.replace(/e?s$/, ''), ...under], words) !== null) return true;
    if (signOf([head.text, ...under], words) !== null) return true;
  }
  return false;
}

/** Makes the first of two compounds with a common end whole: "nocken- und kurbelwellensensor". */
export function wholeCompounds(text: string, words: WorkWords): string {
  return text.replace(
    /\b([a-z]{2,})-\s*(und|u\.?|en|och|og|\+|&|\/)\s*([a-z]{6,})\b/g,
    (whole, first: string, join: string, second: string) => {
      for (let at = 2; at <= second.length - 3; at += 1) {
        const made = first + second.slice(at);
        if (made !== second && words.known.has(made)) return `${made} ${join} ${second}`;
      }
      return whole;
    },
  );
}
