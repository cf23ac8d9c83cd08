import { describe, expect, it } from 'vitest';
import type { UnitHistory } from '../../../models/schema/history.ts';
import { bankOf, disposalFailureOf, renewalsOf } from '../../../models/wear/renewals.ts';
import { coefficients, faultCodes } from './catalog.ts';
import { codeRecord, findingRecord, historyOf, serviceRecord } from './simulation/records.ts';

const day = 19_500;
const chanceWith = (fields: Record<string, unknown>, parts: Partial<UnitHistory> = {}): number =>
  renewalsOf(
    historyOf({ ...parts, services: [serviceRecord(day, ['timing_set'], fields)] }),
    day + 100,
    faultCodes,
    coefficients,
  )[0].failureChance;

describe('renewals', () => {
  it('take a recorded outcome as it is', () => {
    expect(chanceWith({ outcome: 'failed' })).toBe(1);
    expect(chanceWith({ outcome: 'planned', note: 'chain rattled' })).toBe(0);
  });

  it('judge a missing outcome as a chance from words, codes and findings, never as 0 or 1', () => {
    const plain = chanceWith({});
    expect(plain).toBeGreaterThan(0.2);
    expect(plain).toBeLessThan(0.8);
    expect(chanceWith({ note: 'customer states no start, chain jumped' })).toBeGreaterThan(plain + 0.2);
    expect(chanceWith({ note: 'preventive, with water pump' })).toBeLessThan(plain - 0.2);
    expect(chanceWith({}, { codes: [codeRecord(day - 20, 'P0016')] })).toBeGreaterThan(plain);
    expect(chanceWith({}, { codes: [codeRecord(day - 400, 'P0016')] })).toBe(plain);
    expect(chanceWith({}, { findings: [findingRecord(day - 5, 'start_rattle_s', '3')] })).toBeGreaterThan(
      plain,
    );
    for (const chance of [plain, chanceWith({ note: 'failed, broke, snapped' })])
      expect(chance).toBeLessThan(1);
  });

  it('come in order, with bank and part, none after the as-of day', () => {
    const services = [
      serviceRecord(day + 50, ['engine'], { outcome: 'failed' }),
      serviceRecord(day, ['phaser', 'oil_change'], { bank: 'right' }),
      serviceRecord(day + 500, ['timing_set']),
    ];
    const renewals = renewalsOf(historyOf({ services }), day + 100, faultCodes, coefficients);
    expect(renewals.map(({ part, bank, outcome }) => [part, bank, outcome])).toEqual([
      ['phaser', '2', 'unknown'],
      ['engine', null, 'failed'],
    ]);
    expect(bankOf('B1')).toBe('1');
    expect(bankOf('both')).toBeNull();
  });

  it('leave a text aside that may mean something else', () => {
    const row = serviceRecord(day, ['phaser']);
    const found = (confidence: number) =>
      renewalsOf(
        historyOf({ services: [{ ...row, read: { ...row.read, confidence } }] }),
        day + 100,
        faultCodes,
        coefficients,
      );
    expect(found(0.3)).toEqual([]);
    expect(found(0.9).map(({ part }) => part)).toEqual(['phaser']);
  });

  it('count a disposal for an engine or timing failure', () => {
    const disposed = (disposalReason: string) =>
      disposalFailureOf(historyOf({ unitFields: { disposedOn: '2023-05-01', disposalReason } }), day);
    expect(disposed('engine failure')?.failureChance).toBe(1);
    expect(disposed('timing chain broke, beyond repair')).not.toBeNull();
    expect(disposed('sold, engine sound')).toBeNull();
    expect(disposed('collision damage')).toBeNull();
  });
});
