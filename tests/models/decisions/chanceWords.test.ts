import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  casesWords,
  chanceRangeWords,
  chanceWords,
  horizonWords,
} from '../../../models/decisions/chanceWords.ts';

describe('chances as frequencies', () => {
  test.each([
    // by hand: 1/0.11 = 9.1; 1/0.0137 = 73; 0.59 = 5.9 of 10; the ends are said as ends
    [0.11, 'about 1 in 9'],
    [0.0137, 'about 1 in 73'],
    [0.00123, 'about 1 in 810'],
    [0.59, 'about 6 in 10'],
    [0.25, 'about 3 in 10'],
    [0.9699, 'about 9 in 10'],
    [0.97, 'nearly certain'],
    [0.001, 'fewer than 1 in 1000'],
    [0, 'fewer than 1 in 1000'],
  ])('%f is %s', (chance, words) => {
    expect(chanceWords(chance)).toBe(words);
  });
  test('what is said lies within a fifth of the chance', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.0011, max: 0.9, noNaN: true }), (chance) => {
        const [, of, among] = /^about (\d+) in (\d+)$/.exec(chanceWords(chance))!;
        expect(Math.abs(Number(of) / Number(among) / chance - 1)).toBeLessThanOrEqual(0.21);
      }),
    );
  });
  test('ranges, cases and spans', () => {
    expect(chanceRangeWords(0.05, 0.2)).toBe('1 in 20 to 1 in 5');
    expect(chanceRangeWords(0.2, 0.201)).toBe('about 1 in 5');
    expect(casesWords(0.94)).toBe('about 9 of 10 cases');
    expect(casesWords(0.99)).toBe('nearly all cases');
    expect([90, 365, 366, 730, 1096].map(horizonWords)).toEqual([
      'within 90 days',
      'within a year',
      'within a year',
      'within 2 years',
      'within 3 years',
    ]);
  });
});
