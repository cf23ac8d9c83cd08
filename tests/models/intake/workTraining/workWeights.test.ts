import { writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import weights from '../../../../data/catalog/work-weights.json';
import { compileSecondReader, workWeightsFile } from '../../../../models/intake/workSecond.ts';
import { readWork } from '../../../../models/intake/workText.ts';
import { compileWorkWords } from '../../../../models/intake/workWords.ts';
import { catalog, learnedSets, words } from './sets.ts';
import {
  catalogWithout,
  examplesOf,
  learnedWeights,
  learnReader,
  phrasingExamples,
  weightsFile,
} from './train.ts';

const names = Object.keys(learnedSets);
const sets = Object.values(learnedSets);
const isLong = process.env['SOAK'] === '1';

if (process.env['WRITE_WEIGHTS'] === '1') {
  const path = new URL('../../../../data/catalog/work-weights.json', import.meta.url).pathname;
  writeFileSync(path, `${JSON.stringify(learnReader(sets, catalog), null, 2)}\n`);
}

test('the committed weights are whole', () => {
  const reader = compileSecondReader(workWeightsFile.parse(weights));
  expect(reader.weights.length).toBe(2 ** weights.bits);
  expect(reader.weights.every(Number.isFinite)).toBe(true);
  expect(() => compileSecondReader({ ...weights, weights: weights.weights.slice(1) })).toThrow(
    /write the file anew/,
  );
});

describe.runIf(isLong)('learning', () => {
  test('writes what is committed', () => {
    const again = learnReader(sets, catalog).weights.join('');
    const kept = weights.weights.join('');
    let other = 0;
    for (let at = 0; at < kept.length; at += 1) if (again[at] !== kept[at]) other += 1;
    // the last digit of an exponential differs between machines, and with it a rounded weight here and there
    expect(other / kept.length).toBeLessThan(0.001);
  });

  test('a set that was left out, and its words with it, is read better than by the rules alone', () => {
    const full = compileWorkWords(catalog);
    const examples = sets.map((texts, at) => examplesOf(texts, catalogWithout(sets, at, catalog, full)));
    const sorted = (works: readonly string[]) => [...works].sort().join(' ');
    const made = phrasingExamples(catalog);
    for (const name of ['set 06', 'set 08', 'set 10', 'set 12', 'set 14', 'set 16', 'set 19']) {
      const at = names.indexOf(name);
      const learned = learnedWeights([...examples.filter((_, other) => other !== at).flat(), ...made]);
      const second = compileSecondReader(weightsFile(learned));
      const without = catalogWithout(sets, at, catalog, words);
      let right = 0;
      let byRules = 0;
      let wrongSure = 0;
      for (const { text, works } of sets[at]!) {
        const got = readWork(text, without, undefined, second);
        const isRight = sorted(got.works) === sorted(works);
        if (isRight) right += 1;
        else if (got.confidence >= 0.8) wrongSure += 1;
        if (sorted(readWork(text, without).works) === sorted(works)) byRules += 1;
      }
      const count = sets[at]!.length;
      expect((right - byRules) / count, name).toBeGreaterThan(0.015);
      expect(wrongSure / count, name).toBeLessThan(0.01);
    }
  });
});
