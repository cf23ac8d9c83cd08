import { describe, expect, test } from 'vitest';
import { readWork, taughtKey } from '../../../models/intake/workText.ts';
import { compileWorkWords, workWordsFile } from '../../../models/intake/workWords.ts';
import type { WorkKind } from '../../../models/schema/service.ts';
import wordsFile from '../../../data/catalog/work-words.json';
import first from './work-texts.json';
import secondFile from './workTexts.second.json';
import thirdFile from './workTexts.third.json';

const words = compileWorkWords(workWordsFile.parse(wordsFile));
const sorted = (works: readonly string[]): string => [...works].sort().join(' ');

interface ShopText {
  readonly text: string;
  readonly works: readonly string[];
  readonly oilGrade?: string;
  readonly oilL?: number;
}

const texts = first as readonly ShopText[];
const second = secondFile as readonly ShopText[];
const third = thirdFile as readonly ShopText[];
const sets: readonly (readonly [string, readonly ShopText[], number, number])[] = [
  ['the set that the rules were tried on', texts, 0.99, 0.002],
  ['the second set, written before its reader had seen a rule', second, 0.955, 0.007],
  ['the third set, as the second, and another hand', third, 0.925, 0.03],
];

describe.each(sets)('work texts of shops, %s', (_, entries, rightFloor, wrongCeiling) => {
  const read = entries.map((entry) => ({ entry, got: readWork(entry.text, words) }));
  const wrong = read.filter(({ entry, got }) => sorted(got.works) !== sorted(entry.works));
  const shown = (some: typeof wrong) =>
    some.map(({ entry, got }) => `${entry.text}: ${sorted(got.works)} ${got.confidence}`).join('\n');

  test('most are read right: a floor that only rises', () => {
    expect(1 - wrong.length / read.length, shown(wrong.slice(0, 12))).toBeGreaterThanOrEqual(rightFloor);
  });

  test('hardly any is read wrong with confidence: a ceiling that only falls', () => {
    const sure = wrong.filter(({ got }) => got.confidence >= 0.8);
    expect(sure.length / read.length, shown(sure)).toBeLessThan(wrongCeiling);
  });

  test('most are read with confidence, so that few are asked about', () => {
    const sure = read.filter(({ got }) => got.confidence >= 0.8);
    expect(sure.length / read.length).toBeGreaterThanOrEqual(0.7);
  });

  test('grades and amounts named in a text are found', () => {
    const graded = read.filter(({ entry }) => entry.oilGrade !== undefined);
    const rightGrade = graded.filter(
      ({ entry, got }) => got.oilGrade?.replaceAll(' ', '') === entry.oilGrade?.replaceAll(' ', ''),
    );
    expect(rightGrade.length / graded.length).toBeGreaterThanOrEqual(0.97);
    const measured = read.filter(({ entry }) => entry.oilL !== undefined);
    const rightAmount = measured.filter(
      ({ entry, got }) => Math.abs((got.oilL ?? -1) - (entry.oilL ?? 0)) < 0.02,
    );
    expect(rightAmount.length / measured.length).toBeGreaterThanOrEqual(0.9);
  });
});

test('the own words are read with full confidence', () => {
  for (const work of ['oil_change', 'top_up', 'timing_set', 'screen_cleaned', 'other'] as const)
    expect(readWork(work, words)).toMatchObject({ works: [work], confidence: 1 });
});

test('a taught text takes precedence', () => {
  const taught = new Map<string, readonly WorkKind[]>([[taughtKey('Sv-7 std'), ['oil_change', 'filter']]]);
  expect(readWork('SV-7 STD', words, taught).works).toEqual(['oil_change', 'filter']);
  expect(readWork('SV-7 STD', words).works).toEqual(['other']);
});

test('an accessory belt is no timing part; what was declined was not done', () => {
  expect(readWork('serpentine belt and tensioner', words).works).toEqual(['other']);
  expect(readWork('oil change declined', words).works).not.toContain('oil_change');
  expect(readWork('brake fluid change', words).works).toEqual(['other']);
});
