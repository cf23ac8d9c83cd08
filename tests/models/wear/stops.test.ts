import { isoFromDay } from '../../../models/schema/day.ts';
import { describe, expect, it } from 'vitest';
import type { UnitHistory } from '../../../models/schema/history.ts';
import { renewalsOf } from '../../../models/wear/renewals.ts';
import { stopsOf } from '../../../models/wear/stops.ts';
import { coefficients, faultCodes } from './catalog.ts';
import {
  codeRecord,
  engineRecord,
  findingRecord,
  historyOf,
  sampleRecord,
  serviceRecord,
} from './simulation/records.ts';

const today = 20_000;
const day = today - 100;
function stopsWith(parts: Partial<UnitHistory>): readonly string[] {
  const history = historyOf(parts);
  const renewals = renewalsOf(history, today, faultCodes, coefficients);
  return stopsOf(history, renewals, today, faultCodes, coefficients);
}
const finding = findingRecord;

describe('a stop', () => {
  it('is raised by each kind of direct evidence, with its day', () => {
    const raised: readonly Partial<UnitHistory>[] = [
      { codes: [codeRecord(day, 'P0524')] },
      { codes: [codeRecord(day, 'P0017')] },
      { findings: [finding(day, 'hot_idle_pressure_kpa', '35')] },
      { findings: [finding(day, 'coolant_in_oil', 'yes')] },
      { findings: [finding(day, 'start_rattle_s', '7', { soakH: 10 })] },
      { findings: [finding(day, 'chain_elongation_percent', '0.52')] },
      { samples: [sampleRecord(day, { glycol: true })] },
    ];
    for (const parts of raised) {
      const stops = stopsWith(parts);
      expect(stops.length, JSON.stringify(parts)).toBe(1);
      expect(stops[0]).toContain('2024-');
    }
  });

  it('is not raised by what is not direct evidence', () => {
    const quiet: readonly Partial<UnitHistory>[] = [
      {},
      { codes: [codeRecord(day, 'P0011')] },
      { codes: [codeRecord(day, 'P0017'), codeRecord(day + 2, 'P0335')] },
      { codes: [codeRecord(day, 'P0017')], engine: engineRecord({ interference: false }) },
      { findings: [finding(day, 'hot_idle_pressure_kpa', '160')] },
      { findings: [finding(day, 'coolant_in_oil', 'no')] },
      { findings: [finding(day, 'start_rattle_s', '1.5', { soakH: 10 })] },
      { findings: [finding(day, 'chain_elongation_percent', '0.48')] },
      { findings: [finding(day, 'phase_deviation_crank_deg', '9')] },
      { findings: [finding(today + 5, 'coolant_in_oil', 'yes')] },
    ];
    for (const parts of quiet) expect(stopsWith(parts), JSON.stringify(parts)).toEqual([]);
  });

  it('what the laboratory told only later is not cleared before', () => {
    const sample = sampleRecord(day, { glycol: true, reportedOn: isoFromDay(day + 10) });
    const cleared = (on: number) => finding(on, 'cleared', 'Ines Farrow');
    const among = (on: number) => stopsWith({ samples: [sample], findings: [cleared(on)] });
    expect(among(day + 5)).toHaveLength(1);
    expect(among(day + 10)).toEqual([]);
  });

  it('uses the limit of the family', () => {
    const findings = [finding(day, 'chain_elongation_percent', '0.52')];
    expect(stopsWith({ findings, engine: engineRecord({ chainLimitPercent: 0.6 }) })).toEqual([]);
  });

  it('ends by a cleared finding that names a technician, on the day or later, never by time', () => {
    const coolant = finding(day, 'coolant_in_oil', 'yes');
    const cleared = (on: number, value: string | null) =>
      stopsWith({ findings: [coolant, finding(on, 'cleared', value)] });
    expect(cleared(day, 'Ines R.')).toEqual([]);
    expect(cleared(day + 10, 'Tobin K.')).toEqual([]);
    expect(cleared(day - 1, 'Ines R.').length).toBe(1);
    for (const nobody of [null, 'yes', 'ok', '1', '-', 'none'])
      expect(cleared(day + 10, nobody).length).toBe(1);
  });

  it('ends by a clear that names its kind or none, never by one that names another', () => {
    const signs = {
      codes: [codeRecord(day, 'P0524'), codeRecord(day, 'P0017')],
      findings: [
        finding(day, 'coolant_in_oil', 'yes'),
        finding(day - 2, 'start_rattle_s', '7', { soakH: 10 }),
      ],
    };
    const after = (note: string | null, on = day + 3) =>
      stopsWith({
        ...signs,
        findings: [...signs.findings, finding(on, 'cleared', 'Maud S.', { note })],
      })
        .map((words) => /rattle|pressure|coolant|disagree/.exec(words)?.[0])
        .sort();
    expect(after(null)).toEqual([]);
    expect(after('road tested, nothing found')).toEqual([]);
    expect(after('mechanical gauge 180 kPa hot')).toEqual(['coolant', 'disagree', 'rattle']);
    expect(after('phase measured within limits')).toEqual(['coolant', 'pressure', 'rattle']);
    expect(after('pressure fine, chain still noisy')).toEqual(['coolant', 'disagree', 'rattle']);
    const all = ['coolant', 'disagree', 'pressure', 'rattle'];
    expect(after('phase read, but phase not ok and rattle remains')).toEqual(all);
    expect(after('pending')).toEqual(all);
    expect(after('timing renewed, marks checked')).toEqual(['coolant', 'pressure']);
    expect(after('rattle gone with the right filter', day - 1)).toEqual(['coolant', 'disagree', 'pressure']);
  });

  it('ends by renewal of what caused it, and by no other', () => {
    const codes = [codeRecord(day, 'P0016')];
    const renewed = (work: 'timing_set' | 'phaser' | 'engine', on = day + 5) =>
      stopsWith({ codes, services: [serviceRecord(on, [work])] });
    expect(renewed('timing_set')).toEqual([]);
    expect(renewed('engine')).toEqual([]);
    expect(renewed('phaser').length).toBe(1);
    expect(renewed('timing_set', day - 5).length).toBe(1);
  });
});
