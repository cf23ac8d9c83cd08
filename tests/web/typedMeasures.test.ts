import fc from 'fast-check';
import { expect, test } from 'vitest';
import { intervalToSet } from '../../web/format/measures.ts';
import { emptyForm, symptomInputs } from '../../models/assessment/symptomForm.ts';
import {
  isOil,
  itemAmount,
  itemPrice,
  readerUnit,
  typedKm,
  typedKpa,
  typedLiterCents,
  typedLiters,
  typedSigns,
} from '../../web/format/typedMeasures.ts';

test('what is typed in miles and quarts is kept in km and litres', () => {
  // NIST SP 811: 1 mi = 1.609 344 km exactly, 1 US liquid quart = 0.946 352 946 L; by hand
  expect(typedKm(112_986, 'us')).toBe(181_833.3);
  expect(typedKm(181_834, 'metric')).toBe(181_834);
  expect(typedLiters(6, 'us')).toBe(5.68);
  expect(typedLiters(5.7, 'metric')).toBe(5.7);
  // 5.00 a quart are 5 / 0.946353 = 5.28 a litre
  expect(typedLiterCents(500, 'us')).toBe(528);
  expect(typedLiterCents(500, 'metric')).toBe(500);
});

test('oil of the shelves is said by volume, with its price by volume; all else by the piece', () => {
  expect([isOil('oil 5W-30'), isOil('Oil 0W-20'), isOil('oil_filter'), isOil('filter A')]).toEqual([
    true,
    true,
    false,
    false,
  ]);
  expect(itemAmount('oil 5W-30', 60, 'metric')).toBe('60 L');
  // 60 L / 0.946353 = 63.4 qt
  expect(itemAmount('oil 5W-30', 60, 'us')).toBe('63.4 qt');
  expect(itemAmount('filter A', 9, 'us')).toBe('9');
  expect(itemPrice('oil 5W-30', 528, 'USD', 'us')).toMatch(/5\.00 per qt$|5 per qt$/);
  expect(itemPrice('filter A', 1150, 'USD', 'us')).toMatch(/11\.50$/);
});

test('an amount that is shown and typed again is the same to a hundredth of a litre', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 4000 }), (tenths) => {
      const quarts = tenths / 10;
      expect(typedLiters(quarts, 'us') / 0.946352946).toBeCloseTo(quarts, 1);
    }),
  );
});

test('signs of the desk without a unit are psi, °F and quarts there; a unit that was written stands', () => {
  // NIST SP 811: 1 psi = 6.894 757 kPa; 25 psi = 172.4 kPa; 212 °F = 100 °C
  const typed = {
    ...emptyForm,
    pressure: '25',
    oilTemperature: '212',
    level: 'low',
    levelLiters: '1',
  } as const;
  const read = symptomInputs(typedSigns(typed, 'us'), null);
  expect(read.hotIdlePressureKpa).toBeCloseTo(172.37, 2);
  expect(read.oilTemperatureC).toBeCloseTo(100, 6);
  expect(typedSigns(typed, 'us').levelLiters).toBe('1 qt');
  expect(typedSigns(typed, 'metric')).toEqual(typed);
  const own = symptomInputs(typedSigns({ ...typed, pressure: '1.7 bar', oilTemperature: '' }, 'us'), null);
  expect([own.hotIdlePressureKpa, own.oilTemperatureC]).toEqual([170, null]);
  expect([typedKpa(25, 'us'), typedKpa(170, 'metric')]).toEqual([172.4, 170]);
  expect([readerUnit('kPa', 'us'), readerUnit('kPa', 'metric'), readerUnit('°', 'us')]).toEqual([
    'psi',
    'kPa',
    '°',
  ]);
});

test('an interval to set is whole hundreds of the reader and never beyond the advised one', () => {
  // by hand with 1 mi = 1.609344 km: 7834 km = 4867.8 mi, 8046.72 km = 5000 mi
  expect(intervalToSet(7834, 'us')).toBe(4800);
  expect(intervalToSet(7834, 'metric')).toBe(7800);
  expect(intervalToSet(8046.72, 'us')).toBe(5000);
  expect(intervalToSet(8000, 'metric')).toBe(8000);
});
