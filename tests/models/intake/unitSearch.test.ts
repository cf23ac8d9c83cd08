import { describe, expect, test } from 'vitest';
import { searchUnits, unitOfCode } from '../../../models/intake/unitSearch.ts';

const unit = (unitNumber: string, vin: string | null, description: string | null = null) => ({
  unitNumber,
  vin,
  description,
  site: null,
  engineFamily: null,
});
const units = [
  unit('12', '1M8GDM9AXKP042788', 'pursuit sedan'),
  unit('112', null, 'flatbed'),
  unit('12-B', '00Z1UEX495P100019'),
  unit('9', '', 'loader 12'),
];
const numbers = (text: string): string[] => searchUnits(text, units).map(({ unitNumber }) => unitNumber);

describe('a unit by what is typed', () => {
  test('the number itself comes first, then those that begin with it, hold it, or say it', () => {
    expect(numbers('12')).toEqual(['12', '12-B', '112', '9']);
    expect(numbers('12b')).toEqual(['12-B']);
  });
  test('the last characters of a VIN are enough, three are too few', () => {
    expect(numbers('042788')).toEqual(['12']);
    expect(numbers('788')).toEqual([]);
  });
  test('nothing typed finds nothing; words find descriptions', () => {
    expect(numbers('  ')).toEqual([]);
    expect(numbers('SEDAN')).toEqual(['12']);
  });
});

describe('a unit by the code on it', () => {
  // the VIN is the worked example of 49 CFR 565; a Code 39 plate may put an I before it (common practice, no source)
  test.each([
    ['12', '12'],
    ['1M8GDM9AXKP042788', '12'],
    ['I1M8GDM9AXKP042788', '12'],
    ['http://127.0.0.1:4180/units/12-B', '12-B'],
    ['https://shop.example/units/12%2DB?x=1', '12-B'],
  ])('%s is unit %s', (code, number) => {
    expect(unitOfCode(code, units)?.unitNumber).toBe(number);
  });
  test.each(['', '---', '4006381333931', '/units/%E0%A4%A', '1'])('%s is none', (code) => {
    expect(unitOfCode(code, units)).toBeNull();
  });
});
