import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bareUnit } from '../../../models/assessment/symptomBareUnit.ts';
import { codesInOrder, typedCodes } from '../../../models/assessment/symptomCodes.ts';
import { emptyForm, entryOfForm, symptomInputs } from '../../../models/assessment/symptomForm.ts';
import { symptomGain } from '../../../models/assessment/symptomGain.ts';
import { drawnTables, symptomRanges } from '../../../models/assessment/symptomRanges.ts';
import { differential } from '../../../models/wear/symptomDesk.ts';
import { noSymptoms } from '../../../models/wear/symptomSigns.ts';
import { symptomTable } from '../../../models/wear/symptomTable.ts';
import { coefficients, models } from './sampleFixture.ts';

const table = symptomTable.parse(
  JSON.parse(readFileSync(new URL('../../../data/catalog/symptom-desk.json', import.meta.url), 'utf8')),
);
const bare = bareUnit('2026-10-31', coefficients);
const setting = {
  table,
  engine: { interference: null, drive: null, chainLimit: bare.chainLimit },
  faultCodes: models.faultCodes,
  coefficients,
  states: null,
};

describe('the form of the symptom desk', () => {
  it('reads units of measure, and weighs nothing that is still in question', () => {
    const read = symptomInputs(
      {
        ...emptyForm,
        pressure: '20 psi',
        oilTemperature: '200 °F',
        screen: '40 %',
        rattle: '1,5',
        phase: '5',
      },
      bare,
    );
    // 1 psi = 6.894757 kPa (NIST SP 811)
    expect(read.hotIdlePressureKpa).toBeCloseTo(137.895, 3);
    expect(read.oilTemperatureC).toBeCloseTo(93.333, 3);
    expect(read.screenBlockedShare).toBe(0.4);
    expect(read.rattleS).toBe(1.5);
    expect(read.phaseDeviationCrankDeg).toBeNull();
    expect(symptomInputs({ ...emptyForm, screen: '40' }, bare).screenBlockedShare).toBeNull();
    expect(symptomInputs({ ...emptyForm, phase: '5', confirmed: ['phase_geometry'] }, bare)).toMatchObject({
      phaseDeviationCrankDeg: 5,
    });
    expect(symptomInputs(emptyForm, bare)).toEqual(noSymptoms);
    expect(symptomInputs({ ...emptyForm, noCodes: true }, bare).codes).toEqual([]);
  });

  it('keeps what has a record of its own, and the rest in words', () => {
    const entry = entryOfForm({
      ...emptyForm,
      codes: 'P0016, p 0335',
      level: 'low',
      wiring: 'fault',
      coolant: 'no',
      note: 'after the night',
    });
    expect(entry.codes).toEqual(['P0016', 'p 0335']);
    expect(entry.findings.map(({ finding, value }) => [finding, value])).toEqual([['coolant_in_oil', 'no']]);
    expect(entry.note).toBe(
      'after the night; connector, wiring or sensor faulty; oil level low, litres not measured',
    );
  });

  it('sets electrical codes apart and the crank sensor before the correlation code', () => {
    const titles = codesInOrder(typedCodes('P0016 P0340;P0335, P0420, P00'), models.faultCodes).map(
      ({ title, codes }) => [title, codes.map(({ code }) => code).join()],
    );
    expect(titles).toEqual([
      ['Crank sensor: rule this out first', 'P0335'],
      ['Electrical: sensors, circuits, wiring', 'P0340'],
      ['Crank and cam disagree', 'P0016'],
      ['Other codes', 'P0420'],
    ]);
    const chance = (codes: string[]): number =>
      differential({ ...noSymptoms, codes }, setting).causes.find(({ cause }) => cause === 'chain')!
        .probability;
    expect(chance(['P0016'])).toBeGreaterThan(0.3);
    // beside a crank sensor code it raises the chain no higher than before any sign
    expect(chance(['P0016', 'P0335'])).toBeLessThan(table.causes.find(({ id }) => id === 'chain')!.prior);
  });
});

describe('ranges and gains of the desk', () => {
  it('has a range around each chance that is wider than nothing, the same each time', () => {
    const inputs = { ...noSymptoms, codes: ['P0011'] };
    const ranges = symptomRanges(inputs, setting, drawnTables(table));
    for (const { cause, probability } of differential(inputs, setting).causes) {
      expect(ranges[cause].low).toBeLessThan(probability * 1.1);
      expect(ranges[cause].high).toBeGreaterThan(probability * 0.9);
      expect(ranges[cause].high - ranges[cause].low).toBeGreaterThan(0);
    }
    expect(symptomRanges(inputs, setting, drawnTables(table))).toEqual(ranges);
  });

  it('works the gain of a check out as by hand, and a check never makes the guess worse', () => {
    const answer = differential(noSymptoms, setting);
    const gains = symptomGain(answer, table, 99);
    expect(gains).toHaveLength(table.checks.length);
    for (const { rightNow, rightAfter, foundChance } of gains) {
      expect(rightAfter).toBeGreaterThanOrEqual(rightNow);
      expect(foundChance).toBeGreaterThan(0);
      expect(foundChance).toBeLessThan(1);
    }
    const check = table.checks.find(({ id }) => id === 'read_level')!;
    const joint = (yes: boolean): number[] =>
      answer.causes.map(
        ({ cause, probability }) => probability * (yes ? check.positive[cause] : 1 - check.positive[cause]),
      );
    const level = gains.find((gain) => gain.check === 'read_level')!;
    expect(level.rightAfter).toBeCloseTo(Math.max(...joint(true)) + Math.max(...joint(false)), 12);
    expect(level.ifFound.label).toBe('Oil level low');
  });
});
