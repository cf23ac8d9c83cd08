import type { WorkKind } from '../../../../models/schema/service.ts';
import { featuresOf, readKinds } from '../../../../models/intake/workFeatures.ts';
import { hashOf } from '../../../../models/intake/workHash.ts';
import {
  logOdds,
  noWeight,
  placesOf,
  weightLevels,
  type Places,
  type WorkWeightsFile,
} from '../../../../models/intake/workSecond.ts';
import { readByRules } from '../../../../models/intake/workText.ts';
import { traceWork } from '../../../../models/intake/workTrace.ts';
import {
  compileWorkWords,
  foldWork,
  type WorkWords,
  type WorkWordsFile,
} from '../../../../models/intake/workWords.ts';
import { textsOfPhrasings, thinnedCatalog } from './phrasings.ts';

/** A work text with what it means. */
export interface ShopText {
  readonly text: string;
  readonly works: readonly string[];
  readonly oilGrade?: string;
  readonly oilL?: number;
}

/** How the second reader learns; none of it was tried on the sets held back to the end. */
const bits = 19;
const textShare = 1;
const levelsPerUnit = 12;
const rounds = 15;
const pace = 0.1;
const pull = 1e-4;
const firstSquare = 1e-2;
/** Share of the phrases that only one set uses that are taken out of the catalog while that set is read. */
const forgotten = 0.9;
/** Weight of a text made from a turn of phrase beside one that somebody wrote. */
const phrasingShare = 0.3;

const phraseKey = (phrase: string) =>
  foldWork(phrase)
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();

type Users = ReadonlyMap<string, ReadonlySet<number>>;
const usersOfSets = new WeakMap<readonly (readonly ShopText[])[], Users>();

/** Which sets use a phrase; found once, since every text is taken apart for it. */
function usersOf(sets: readonly (readonly ShopText[])[], full: WorkWords): Users {
  const known = usersOfSets.get(sets);
  if (known !== undefined) return known;
  const users = new Map<string, Set<number>>();
  sets.forEach((texts, at) => {
    for (const { text } of texts)
      for (const part of traceWork(text, full).parts)
        users.set(part.text, (users.get(part.text) ?? new Set()).add(at));
  });
  usersOfSets.set(sets, users);
  return users;
}

/**
 * The catalog as it would stand had the set at `index` not been seen: without most of the phrases that only this set
 * uses. The rules then answer it about as they answer texts never met, and the second reader learns how far to trust them.
 */
export function catalogWithout(
  sets: readonly (readonly ShopText[])[],
  index: number,
  file: WorkWordsFile,
  full: WorkWords,
  draw = 0,
): WorkWords {
  const usedBy = usersOf(sets, full);
  const isGone = (phrase: string) => {
    const users = usedBy.get(phraseKey(phrase));
    return (
      users?.size === 1 &&
      users.has(index) &&
      hashOf(`${draw} ${index} ${phraseKey(phrase)}`) < forgotten * 2 ** 32
    );
  };
  const keep = (phrases: readonly string[]) => phrases.filter((phrase) => !isGone(phrase));
  const keepIn = (lists: Readonly<Record<string, readonly string[]>>) =>
    Object.fromEntries(Object.entries(lists).map(([name, phrases]) => [name, keep(phrases)]));
  return compileWorkWords({
    ...file,
    jobs: keepIn(file.jobs),
    services: Object.fromEntries(
      Object.entries(file.services).map(([works, bySure]) => [works, keepIn(bySure)]),
    ),
    things: keepIn(file.things),
    actions: keepIn(file.actions),
    refused: keep(file.refused),
    undone: keep(file.undone),
    ahead: keep(file.ahead),
    without: keep(file.without),
    symptoms: keep(file.symptoms),
    fine: keep(file.fine),
    foreign: keep(file.foreign),
    oily: keep(file.oily),
    brakes: keep(file.brakes),
    links: keep(file.links),
    joins: keep(file.joins),
    fillers: keep(file.fillers),
  });
}

/** A text read for learning: where its weights stand, and which kinds it tells of. */
export interface Example {
  readonly text: ShopText;
  readonly places: readonly Places[];
  readonly told: readonly boolean[];
  readonly weight: number;
}

/** Reads a set with a catalog for learning. */
export function examplesOf(texts: readonly ShopText[], words: WorkWords, weight = 1): Example[] {
  return texts.map((text) => {
    const trace = traceWork(text.text, words);
    const places = placesOf(featuresOf(trace, readByRules(trace)), 2 ** bits - 1);
    return { text, places, told: readKinds.map((kind: WorkKind) => text.works.includes(kind)), weight };
  });
}

/** A random order that is the same each time. */
function shuffled(count: number, seed: number): number[] {
  const order = Array.from({ length: count }, (_, at) => at);
  let state = seed;
  for (let at = count - 1; at > 0; at -= 1) {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    const other = Math.floor((state / 0x80000000) * (at + 1));
    [order[at], order[other]] = [order[other]!, order[at]!];
  }
  return order;
}

/** Logistic regression of all kinds at once by AdaGrad. */
export function learnedWeights(examples: readonly Example[]): Float64Array {
  const weights = new Float64Array(2 ** bits);
  const squares = new Float64Array(2 ** bits).fill(firstSquare);
  const move = (places: Int32Array, slope: number, step: number) => {
    for (const place of places) {
      const gradient = slope + pull * weights[place]!;
      squares[place]! += gradient * gradient;
      weights[place]! -= (step * gradient) / Math.sqrt(squares[place]!);
    }
  };
  for (let round = 0; round < rounds; round += 1) {
    const step = pace * (1 - (0.9 * round) / rounds);
    for (const at of shuffled(examples.length, round + 1)) {
      const { places, told, weight } = examples[at]!;
      places.forEach((place, kind) => {
        const chance = 1 / (1 + Math.exp(-logOdds(place, weights, textShare)));
        const slope = weight * (chance - (told[kind] === true ? 1 : 0));
        if (Math.abs(slope) < 1e-3) return;
        move(place.ofText, slope * textShare, step);
        move(place.ofKind, slope, step);
      });
    }
  }
  return weights;
}

const lineLength = 1024;

/** The file of weights, each rounded to one of 57 levels. */
export function weightsFile(weights: Float64Array): WorkWeightsFile {
  const codes = Array.from(weights, (weight) => {
    const level = Math.round(weight * levelsPerUnit);
    return noWeight + Math.max(-weightLevels, Math.min(weightLevels, level));
  });
  const lines: string[] = [];
  for (let at = 0; at < codes.length; at += lineLength)
    lines.push(String.fromCharCode(...codes.slice(at, at + lineLength)));
  return {
    title: 'Weights of the second reader of work texts',
    source: 'learned from the sets of work texts under tests, see workTraining/train.ts',
    kind: 'learned',
    bits,
    levelsPerUnit,
    textShare,
    sureFrom: [
      { upToParts: 2, agreed: 0.85, alone: 0.975 },
      { upToParts: 3, agreed: 0.93, alone: 0.975 },
      { upToParts: 5, agreed: 0.98, alone: 0.975 },
      { upToParts: 8, agreed: 0.98, alone: 0.98 },
      { upToParts: 14, agreed: 0.9925, alone: 0.99 },
      { upToParts: 10_000, agreed: 0.998, alone: 0.9925 },
    ],
    doubtBelow: 0.5,
    rulesFrom: 0.6,
    weights: lines,
  };
}

/** Examples made from turns of phrase. */
export const phrasingExamples = (file: WorkWordsFile): Example[] =>
  examplesOf(textsOfPhrasings(), thinnedCatalog(file), phrasingShare);

/** Learns from sets of texts; each is read with the catalog as it would stand without it. */
export function learnReader(sets: readonly (readonly ShopText[])[], file: WorkWordsFile): WorkWeightsFile {
  const full = compileWorkWords(file);
  const examples = sets.flatMap((texts, at) => examplesOf(texts, catalogWithout(sets, at, file, full)));
  return weightsFile(learnedWeights([...examples, ...phrasingExamples(file)]));
}
