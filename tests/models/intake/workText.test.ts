import { describe, expect, test } from 'vitest';
import { readWork, taughtKey } from '../../../models/intake/workText.ts';
import { compileWorkWords, workWordsFile } from '../../../models/intake/workWords.ts';
import type { WorkKind } from '../../../models/schema/service.ts';
import wordsFile from '../../../data/catalog/work-words.json';
import texts from './work-texts.json';

const words = compileWorkWords(workWordsFile.parse(wordsFile));
const sorted = (works: readonly string[]): string => [...works].sort().join(' ');

interface ShopText {
  readonly text: string;
  readonly works: readonly string[];
  readonly oilGrade?: string;
  readonly oilL?: number;
}

describe('work texts of shops, written apart from the rules', () => {
  const read = (texts as readonly ShopText[]).map((entry) => ({ entry, got: readWork(entry.text, words) }));
  const wrong = read.filter(({ entry, got }) => sorted(got.works) !== sorted(entry.works));

  test('at least 92 % are read right: a floor that only rises', () => {
    const share = 1 - wrong.length / read.length;
    expect(
      share,
      wrong
        .slice(0, 12)
        .map(({ entry, got }) => `${entry.text}: ${sorted(got.works)}`)
        .join('\n'),
    ).toBeGreaterThanOrEqual(0.92);
  });

  test('fewer than 3 % are read wrong with confidence: a ceiling that only falls', () => {
    const sure = wrong.filter(({ got }) => got.confidence >= 0.8);
    expect(sure.length / read.length, sure.map(({ entry }) => entry.text).join('\n')).toBeLessThan(0.03);
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
    expect(rightAmount.length / measured.length).toBeGreaterThanOrEqual(0.95);
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
