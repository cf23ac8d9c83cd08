import { z } from 'zod';
import { fold } from './headerWords.ts';
import { latinLetters } from './latinLetters.ts';
import { plainScripts } from './workScripts.ts';

const phrases = z.array(z.string());

/** The catalog of shop-floor words, see `data/catalog/work-words.json`. */
export const workWordsFile = z.object({
  title: z.string(),
  source: z.string(),
  /** short forms to the words they stand for */
  abbreviations: z.record(z.string(), z.string()),
  /** words that are meant when a misspelling could stand for several */
  core: phrases,
  /** phrases that are a job by themselves; `a+b` for two at once */
  jobs: z.record(z.string(), phrases),
  /** packages of work, by what they hold and how sure that is */
  services: z.record(z.string(), z.record(z.string(), phrases)),
  /** things that a job can be about; only an action makes it one */
  things: z.record(z.string(), phrases),
  /** things named by any of the first words before any of the second: vvt, cam … gear, sprocket … */
  combined: z.record(z.string(), z.array(z.object({ first: phrases, then: phrases }))),
  actions: z.record(z.string(), phrases),
  /** says that nothing was done, even from the next clause: declined … */
  refused: phrases,
  /** says of the thing beside it that nothing was done: not, due, needs … */
  undone: phrases,
  /** says so of what follows only: next … */
  ahead: phrases,
  without: phrases,
  /** says that a thing is in a bad way, not that it was renewed */
  symptoms: phrases,
  /** says that a thing was found in order */
  fine: phrases,
  /** things that are none of ours */
  foreign: phrases,
  /** things with an oil of their own: gearbox, axle … */
  oily: phrases,
  brakes: phrases,
  links: phrases,
  joins: phrases,
  fillers: phrases,
  /** common words that must not be taken for a misspelling */
  plain: phrases,
});
export type WorkWordsFile = z.infer<typeof workWordsFile>;

export type Sign =
  | { readonly is: 'job'; readonly works: readonly string[]; readonly sure: number }
  | { readonly is: 'thing'; readonly thing: string }
  | { readonly is: 'action'; readonly action: string }
  | {
      readonly is:
        | 'refused'
        | 'undone'
        | 'ahead'
        | 'without'
        | 'foreign'
        | 'oily'
        | 'link'
        | 'join'
        | 'filler'
        | 'plain'
        | 'symptom'
        | 'fine';
    };

/** The catalog made ready: phrases to their signs, and all words that occur. */
export interface WorkWords {
  readonly signs: ReadonlyMap<string, Sign>;
  /** first word to the length of the longest phrase that begins with it */
  readonly longest: ReadonlyMap<string, number>;
  readonly known: ReadonlySet<string>;
  readonly core: ReadonlySet<string>;
  readonly abbreviations: ReadonlyMap<string, string>;
  /** words that a misspelling may stand for, by first letter and length, see {@link alikeKey} */
  readonly alike: ReadonlyMap<string, readonly string[]>;
}

/** Lower case, Latin letters, no accents, `oe` for `ö` undone: `Oelwechsel` and `Ölwechsel` become `olwechsel`. */
export function foldWork(text: string): string {
  return latinLetters(fold(plainScripts(text))).replace(/\b(motor|getriebe|hydraulik)?oel(?!l)/g, '$1ol');
}

/** Words that may be meant by one another begin alike: first letter and a length. */
export const alikeKey = (word: string, length: number) => `${word.charAt(0)}${length}`;

const phraseKey = (phrase: string) =>
  foldWork(phrase)
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();

/** Makes the catalog ready; done once. The first meaning given to a phrase stands. */
export function compileWorkWords(file: WorkWordsFile): WorkWords {
  const signs = new Map<string, Sign>();
  const longest = new Map<string, number>();
  const known = new Set<string>();
  const targets = new Set<string>();
  const add = (phrase: string, sign: Sign, isTarget: boolean) => {
    const key = phraseKey(phrase);
    if (key === '') return;
    if (!signs.has(key)) signs.set(key, sign);
    const words = key.split(' ');
    const [first = ''] = words;
    longest.set(first, Math.max(longest.get(first) ?? 0, words.length));
    for (const word of words) {
      known.add(word);
      if (isTarget && word.length >= 4) targets.add(word);
    }
  };
  for (const [works, list] of Object.entries(file.jobs))
    for (const phrase of list) add(phrase, { is: 'job', works: works.split('+'), sure: 0.95 }, true);
  for (const [works, bySure] of Object.entries(file.services))
    for (const [sure, list] of Object.entries(bySure))
      for (const phrase of list)
        add(phrase, { is: 'job', works: works.split('+'), sure: Number(sure) }, true);
  for (const [thing, list] of Object.entries(file.things))
    for (const phrase of list) add(phrase, { is: 'thing', thing }, true);
  for (const [thing, pairs] of Object.entries(file.combined))
    for (const pair of pairs)
      for (const first of pair.first)
        for (const then of pair.then) add(`${first} ${then}`, { is: 'thing', thing }, true);
  for (const phrase of file.oily) add(phrase, { is: 'oily' }, true);
  for (const phrase of [...file.foreign, ...file.brakes]) add(phrase, { is: 'foreign' }, true);
  for (const [action, list] of Object.entries(file.actions))
    for (const phrase of list) add(phrase, { is: 'action', action }, true);
  for (const phrase of file.refused) add(phrase, { is: 'refused' }, true);
  for (const phrase of file.undone) add(phrase, { is: 'undone' }, true);
  for (const phrase of file.ahead) add(phrase, { is: 'ahead' }, false);
  for (const phrase of file.without) add(phrase, { is: 'without' }, true);
  for (const phrase of file.symptoms) add(phrase, { is: 'symptom' }, true);
  for (const phrase of file.fine) add(phrase, { is: 'fine' }, false);
  for (const phrase of file.joins) add(phrase, { is: 'join' }, false);
  for (const phrase of file.links) add(phrase, { is: 'link' }, false);
  for (const phrase of file.fillers) add(phrase, { is: 'filler' }, false);
  for (const phrase of file.plain) add(phrase, { is: 'plain' }, false);
  const alike = new Map<string, string[]>();
  for (const word of targets) {
    const key = alikeKey(word, word.length);
    const list = alike.get(key);
    if (list === undefined) alike.set(key, [word]);
    else list.push(word);
  }
  return {
    signs,
    longest,
    known,
    core: new Set(file.core),
    abbreviations: new Map(Object.entries(file.abbreviations)),
    alike,
  };
}
