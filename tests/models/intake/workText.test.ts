import { describe, expect, test } from 'vitest';
import { readWork, taughtKey } from '../../../models/intake/workText.ts';
import { compileWorkWords, foldWork, workWordsFile } from '../../../models/intake/workWords.ts';
import type { WorkKind } from '../../../models/schema/service.ts';
import wordsFile from '../../../data/catalog/work-words.json';
import first from './work-texts.json';
import secondFile from './workTexts.second.json';
import thirdFile from './workTexts.third.json';
import fourthFile from './workTexts.fourth.json';
import fifthFile from './workTexts.fifth.json';

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
const fourth = fourthFile as readonly ShopText[];
const fifth = fifthFile as readonly ShopText[];
interface TextSet {
  readonly entries: readonly ShopText[];
  /** least share read right, most read wrong with confidence, least read with confidence */
  readonly right: number;
  readonly wrong: number;
  readonly sure: number;
  /** the first reading, before any of its texts was looked at; null for texts that the rules were tried on */
  readonly first: { readonly right: number; readonly wrong: number } | null;
}
const sets: readonly (readonly [string, TextSet])[] = [
  ['the first set', { entries: texts, right: 0.99, wrong: 0.002, sure: 0.88, first: null }],
  [
    'the second set',
    { entries: second, right: 0.97, wrong: 0.004, sure: 0.79, first: { right: 0.83, wrong: 0.058 } },
  ],
  [
    'the third set',
    { entries: third, right: 0.985, wrong: 0.002, sure: 0.72, first: { right: 0.912, wrong: 0.043 } },
  ],
  [
    'the fourth set',
    { entries: fourth, right: 0.99, wrong: 0.002, sure: 0.72, first: { right: 0.925, wrong: 0.014 } },
  ],
  [
    'the fifth set',
    { entries: fifth, right: 0.98, wrong: 0.004, sure: 0.69, first: { right: 0.936, wrong: 0.005 } },
  ],
];

describe.each(sets)(
  'work texts of shops, %s',
  (_, { entries, right, wrong: mostWrong, sure: leastSure, first }) => {
    const read = entries.map((entry) => ({ entry, got: readWork(entry.text, words) }));
    const wrong = read.filter(({ entry, got }) => sorted(got.works) !== sorted(entry.works));
    const shown = (some: typeof wrong) =>
      some.map(({ entry, got }) => `${entry.text}: ${sorted(got.works)} ${got.confidence}`).join('\n');

    test('most are read right: a floor that only rises', () => {
      expect(1 - wrong.length / read.length, shown(wrong.slice(0, 12))).toBeGreaterThanOrEqual(right);
      expect(right).toBeGreaterThan(first?.right ?? 0);
    });

    test('hardly any is read wrong with confidence: a ceiling that only falls', () => {
      const sure = wrong.filter(({ got }) => got.confidence >= 0.8);
      expect(sure.length / read.length, shown(sure)).toBeLessThan(mostWrong);
      expect(mostWrong).toBeLessThan(first?.wrong ?? 1);
    });

    test('most are read with confidence, so that few are asked about', () => {
      const sure = read.filter(({ got }) => got.confidence >= 0.8);
      expect(sure.length / read.length).toBeGreaterThanOrEqual(leastSure);
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
  },
);

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

test('the texts that were written without sight of the rules, taken together', () => {
  const blind = [...second, ...third, ...fourth].map((entry) => ({
    entry,
    got: readWork(entry.text, words),
  }));
  const wrong = blind.filter(({ entry, got }) => sorted(got.works) !== sorted(entry.works));
  expect(blind.length).toBeGreaterThanOrEqual(1500);
  expect(1 - wrong.length / blind.length).toBeGreaterThanOrEqual(0.98);
  expect(wrong.filter(({ got }) => got.confidence >= 0.8).length / blind.length).toBeLessThan(0.005);
});

test('Cyrillic letters are read as their Latin ones', () => {
  // ISO 9 without accents; a `й` or `ё` loses its mark
  expect(foldWork('Замена масла и фильтра')).toBe('zamena masla i filtra');
  expect(readWork('Замена ремня ГРМ', words).works).toEqual(['belt']);
});

test('two things that share their first word in Romance languages', () => {
  for (const text of [
    'sensores de cigüeñal y árbol de levas cambiados',
    'capteurs arbre à cames et vilebrequin',
  ])
    expect(sorted(readWork(text, words).works), text).toBe('cam_sensor crank_sensor');
});

test('a sentence after a job does not undo it; a look before a refused repair was had', () => {
  expect(sorted(readWork('LOF. Advised cam phaser noise, quote given', words).works)).toBe(
    'filter oil_change',
  );
  expect(readWork('Inspected timing chain; replacement declined', words).works).toEqual(['inspection']);
  expect(readWork('Timing belt due at 100k - done', words).works).toEqual(['belt']);
});

test('what is put on a schedule or paid back was not done', () => {
  for (const text of ['put on schedule for LOF', 'credit for oil change', 'dealer to replace timing chain'])
    expect(readWork(text, words).works, text).toEqual(['other']);
});

test('a trouble code says why, and leaves the job sure', () => {
  // written as in SAE J2012: a letter, 0 to 3, three digits
  expect(readWork('P0128, thermostat replaced', words)).toMatchObject({ works: ['thermostat'] });
  expect(readWork('P0128, thermostat replaced', words).confidence).toBeGreaterThanOrEqual(0.8);
  expect(readWork('P0340 cleared', words).works).toEqual(['other']);
});

test('a filter that the change was made without is not taken for renewed', () => {
  for (const text of ['LOF w/o filter', 'oil & filter change, no filter avail', 'LOF, filter not replaced'])
    expect(readWork(text, words).works, text).toEqual(['oil_change']);
});

test('a word beside a job that is not understood takes the confidence away', () => {
  expect(readWork('thermostat replaced', words).confidence).toBeGreaterThanOrEqual(0.8);
  expect(readWork('thermostat zworbled replaced', words).confidence).toBeLessThan(0.8);
});
