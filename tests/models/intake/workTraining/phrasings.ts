import { hashOf } from '../../../../models/intake/workHash.ts';
import { compileWorkWords, type WorkWords, type WorkWordsFile } from '../../../../models/intake/workWords.ts';
import file from './phrasings.json';

interface MadeText {
  readonly text: string;
  readonly works: readonly string[];
}

/** Seeds draw the same each time (numbers of Numerical Recipes, 32 bits). */
function drawer(seed: number): <T>(list: readonly T[]) => T {
  let state = seed;
  return (list) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return list[Math.floor((state / 2 ** 32) * list.length)]!;
  };
}

const slot = /\{(\w+)\}/g;
const kinds = file.kinds as Readonly<Record<string, readonly string[]>>;

/** Texts made from turns of phrase: `{A}` to `{C}` are kinds that were done, `{x}` and `{y}` kinds that were not. */
export function textsOfPhrasings(): MadeText[] {
  const pick = drawer(5);
  const share = Array.from({ length: 100 }, (_, at) => at);
  const made = new Map<string, MadeText>();
  for (const phrase of file.phrases) {
    const [shape = '', told = ''] = phrase.split(' => ');
    const slots = new Set([...shape.matchAll(slot)].map(([, name = '']) => name));
    const hasKinds = ['A', 'B', 'C', 'x', 'y'].some((name) => slots.has(name));
    const times = hasKinds ? 10 : slots.size > 0 ? 4 : 2;
    for (let time = 0; time < times; time += 1) {
      const left = Object.keys(kinds);
      const drawn = new Map<string, string>();
      for (const name of ['A', 'B', 'C', 'x', 'y']) {
        const kind = pick(left);
        left.splice(left.indexOf(kind), 1);
        drawn.set(name, kind);
      }
      const lists: Readonly<Record<string, readonly string[]>> = {
        f: file.others,
        f2: file.others,
        q: file.amounts,
        s: file.little,
        w: file.grades,
        n: file.numbers,
        d: file.days,
      };
      let text = shape.replace(slot, (_, name: string) =>
        pick(lists[name] ?? kinds[drawn.get(name) ?? ''] ?? ['']),
      );
      const look = pick(share);
      if (look < 25) text = text.toUpperCase();
      else if (look < 45) text = text.charAt(0).toUpperCase() + text.slice(1);
      if (pick(share) < 12) text += pick(file.after);
      if (pick(share) < 8) text = pick(file.before) + text;
      const works = new Set(told.split(' ').map((name) => drawn.get(name) ?? name));
      made.set(text, { text, works: [...works].sort() });
    }
  }
  return [...made.values()];
}

/** The catalog with one phrase in eight forgotten, as if so many words of a text were not known. */
export function thinnedCatalog(catalog: WorkWordsFile): WorkWords {
  const keep = (phrases: readonly string[]) =>
    phrases.filter((phrase) => hashOf(`thinned ${phrase}`) >= 0.12 * 2 ** 32);
  const keepIn = (lists: Readonly<Record<string, readonly string[]>>) =>
    Object.fromEntries(Object.entries(lists).map(([name, phrases]) => [name, keep(phrases)]));
  return compileWorkWords({
    ...catalog,
    jobs: keepIn(catalog.jobs),
    things: keepIn(catalog.things),
    actions: keepIn(catalog.actions),
    refused: keep(catalog.refused),
    undone: keep(catalog.undone),
    ahead: keep(catalog.ahead),
    symptoms: keep(catalog.symptoms),
    fine: keep(catalog.fine),
    foreign: keep(catalog.foreign),
    oily: keep(catalog.oily),
    fillers: keep(catalog.fillers),
  });
}
