import { z } from 'zod';
import type { WorkKind } from '../schema/service.ts';
import { featuresOf, readKinds, type RuleAnswer, type WorkFeatures } from './workFeatures.ts';
import { hashOf, mixed } from './workHash.ts';
import type { WorkTrace } from './workTrace.ts';

/** Levels on either side of nothing, and the character that stands for nothing, in the file of weights. */
export const weightLevels = 28;
export const noWeight = 63;

/** What the second reader learned, see `data/catalog/work-weights.json`. */
export const workWeightsFile = z.object({
  title: z.string(),
  source: z.string(),
  kind: z.string(),
  /** a sign's place in the weights is its hash, cut to so many bits */
  bits: z.number().int().min(8).max(20),
  /** levels of a weight that add 1 to the log odds */
  levelsPerUnit: z.number().positive(),
  /** weight of a sign of the whole text beside one of the kind */
  textShare: z.number().positive(),
  /**
   * chance that all answers are right from which nobody is asked, by the number of parts of the text: where the rules
   * say the same, and where they say otherwise or are in doubt
   */
  sureFrom: z.array(
    z.object({
      upToParts: z.number(),
      agreed: z.number().min(0).max(1),
      alone: z.number().min(0).max(1),
    }),
  ),
  /** below this chance the rules stand where they are not much in doubt themselves */
  doubtBelow: z.number().min(0).max(1),
  rulesFrom: z.number().min(0).max(1),
  /** one character a weight, 28 levels on either side of `?`, in lines */
  weights: z.array(z.string()),
});
export type WorkWeightsFile = z.infer<typeof workWeightsFile>;

/** The weights made ready. */
export interface SecondReader {
  /** in levels, which are small enough to stay near the processor */
  readonly weights: Int8Array;
  readonly levelsPerUnit: number;
  readonly textShare: number;
  readonly sureFrom: WorkWeightsFile['sureFrom'];
  readonly doubtBelow: number;
  readonly rulesFrom: number;
}

/** Makes the weights ready; done once. */
export function compileSecondReader(file: WorkWeightsFile): SecondReader {
  const text = file.weights.join('');
  if (text.length !== 2 ** file.bits)
    throw new RangeError(
      `weights must be ${2 ** file.bits} characters, not ${text.length}: write the file anew.`,
    );
  const weights = new Int8Array(text.length);
  for (let at = 0; at < text.length; at += 1) weights[at] = text.charCodeAt(at) - noWeight;
  const { levelsPerUnit, textShare, sureFrom, doubtBelow, rulesFrom } = file;
  return { weights, levelsPerUnit, textShare, sureFrom, doubtBelow, rulesFrom };
}

const salts = readKinds.map((kind) => hashOf(`text ${kind}`));

/** Places of the weights that count for each kind: of the whole text first, then of the kind. */
export interface Places {
  readonly ofText: Int32Array;
  readonly ofKind: Int32Array;
}

/** Where the weights of a text's signs stand, for each kind. */
export function placesOf(features: WorkFeatures, mask: number): Places[] {
  return readKinds.map((_, kind) => ({
    ofText: Int32Array.from(features.ofText, (hash) => mixed(hash, salts[kind] ?? 0) & mask),
    ofKind: Int32Array.from(features.ofKind[kind] ?? [], (hash) => hash & mask),
  }));
}

/** Log odds that a kind was done: the sum of the weights of its signs. */
export function logOdds({ ofText, ofKind }: Places, weights: Float64Array, textShare: number): number {
  let ofTexts = 0;
  for (const place of ofText) ofTexts += weights[place] ?? 0;
  let sum = ofTexts * textShare;
  for (const place of ofKind) sum += weights[place] ?? 0;
  return sum;
}

/** The same of a text that is read and not learned from: no places are kept. */
function oddsRead(features: WorkFeatures, kind: number, reader: SecondReader): number {
  const { weights, textShare, levelsPerUnit } = reader;
  const mask = weights.length - 1;
  const salt = salts[kind] ?? 0;
  let ofTexts = 0;
  for (const hash of features.ofText) ofTexts += weights[mixed(hash, salt) & mask] ?? 0;
  let sum = 0;
  for (const hash of features.ofKind[kind] ?? []) sum += weights[hash & mask] ?? 0;
  return (ofTexts * textShare + sum) / levelsPerUnit;
}

/** What the second reader makes of a text. */
export interface SecondReading {
  readonly works: readonly WorkKind[];
  /** 0..1, product of the chances of the single answers */
  readonly chance: number;
}

/**
 * A log-linear reader: for each kind the sum of the weights of the signs found, see featuresOf, gives the log odds that
 * it was done. The weights were learned from texts with their meaning (logistic regression, AdaGrad: Duchi, Hazan and
 * Singer 2011; signs by hash: Weinberger and others 2009).
 */
export function readSecond(trace: WorkTrace, answer: RuleAnswer, reader: SecondReader): SecondReading {
  const features = featuresOf(trace, answer);
  const works: WorkKind[] = [];
  let chance = 1;
  readKinds.forEach((kind, at) => {
    const odds = oddsRead(features, at, reader);
    if (odds > 0) works.push(kind);
    chance /= 1 + Math.exp(-Math.abs(odds));
  });
  return { works: works.length === 0 ? ['other'] : works, chance };
}

/** Confidence from which on nobody is asked about a reading. */
const asked = 0.8;

const isSame = (one: readonly WorkKind[], other: readonly WorkKind[]) =>
  one.length === other.length && one.every((work) => other.includes(work));

/** The longer a text, the more it takes to be sure of it; where the rules are no help, most. */
function neededChance(agree: boolean, rules: RuleAnswer, parts: number, reader: SecondReader): number {
  const found = reader.sureFrom.find(({ upToParts }) => parts <= upToParts);
  if (found === undefined) return 1;
  return agree && rules.confidence >= asked ? found.agreed : found.alone;
}

/**
 * Settles what the two readers say. The second one has the rules' answer among its signs and is right more often where
 * they differ, except where it is in doubt and the rules are not.
 * @param parts how many parts the text has, see partsOfWork
 * @returns the works and 0..1 how sure they are; from 0.8 on nobody is asked
 */
export function settleReadings(
  rules: RuleAnswer,
  second: SecondReading,
  parts: number,
  reader: SecondReader,
): RuleAnswer {
  const agree = isSame(rules.works, second.works);
  const { chance } = second;
  if (!agree && chance < reader.doubtBelow && rules.confidence >= reader.rulesFrom)
    return { works: rules.works, confidence: Math.min(rules.confidence, 0.5) };
  const needed = neededChance(agree, rules, parts, reader);
  const confidence =
    chance >= needed
      ? asked + ((1 - asked) * (chance - needed)) / Math.max(1 - needed, 1e-9)
      : Math.min((asked * chance) / needed, asked - 0.001);
  return { works: second.works, confidence: Math.min(confidence, 0.999) };
}
