import { describe, expect, it } from 'vitest';
import { codeText } from '../../../models/wear/faultCode.ts';
import { unitStates } from '../../../models/wear/unitStates.ts';
import { coefficients, faultCodes } from './catalog.ts';
import {
  codeRecord,
  engineRecord,
  fillOfEngine,
  historyOf,
  mixedDuty,
  timelineOf,
} from './simulation/records.ts';
import type { ChargePlan } from './simulation/records.ts';

const context = { coefficients, faultCodes, fillOf: fillOfEngine(engineRecord({})) };
const timeline = timelineOf(new Array<ChargePlan>(10).fill({ exposure: mixedDuty }));
const day = timeline.charges[7].endDay;
const nowWith = (...codes: ReturnType<typeof codeRecord>[]) =>
  unitStates(timeline, historyOf({ codes }), context).now;

describe('fault codes as evidence', () => {
  it('raise the part they speak of', () => {
    const plain = nowWith();
    expect(nowWith(codeRecord(day, 'P0016')).chainPercent!.value).toBeGreaterThan(
      1.3 * plain.chainPercent!.value,
    );
    expect(nowWith(codeRecord(day, 'P0011')).phaserShare!.value).toBeGreaterThan(
      1.3 * plain.phaserShare!.value,
    );
  });

  it('say nothing of the chain while the crank sensor is not ruled out', () => {
    const chain = (...codes: ReturnType<typeof codeRecord>[]) => nowWith(...codes).chainPercent!.value;
    expect(chain(codeRecord(day, 'P0016'), codeRecord(day - 3, 'P0336'))).toBeLessThanOrEqual(chain());
    // long after the sensor fault it speaks again
    expect(chain(codeRecord(day, 'P0016'), codeRecord(day - 300, 'P0336'))).toBeGreaterThan(1.3 * chain());
    // a cam sensor of the other bank explains nothing
    expect(chain(codeRecord(day, 'P0016'), codeRecord(day, 'P0345'))).toBeGreaterThan(1.3 * chain());
    expect(chain(codeRecord(day, 'P0016'), codeRecord(day, 'P0341'))).toBeLessThanOrEqual(chain());
  });

  it('count less beside circuit codes, which are electrical first', () => {
    const alone = nowWith(codeRecord(day, 'P0011')).phaserShare!.value;
    const beside = nowWith(codeRecord(day, 'P0011'), codeRecord(day, 'P0010')).phaserShare!.value;
    expect(beside).toBeLessThan(alone);
    expect(nowWith(codeRecord(day, 'P0010')).phaserShare!.value).toBeLessThanOrEqual(
      1.01 * nowWith().phaserShare!.value,
    );
  });

  it('count once while they stand, however often they are read', () => {
    const once = nowWith(codeRecord(day, 'P0016'));
    const often = nowWith(
      codeRecord(day, 'P0016'),
      codeRecord(day + 10, 'p0016 '),
      codeRecord(day + 20, 'P0016-00'),
    );
    expect(often.chainPercent!.value).toBeCloseTo(once.chainPercent!.value, 4);
    expect(often.chainPercent!.high).toBeCloseTo(once.chainPercent!.high, 3);
  });

  it('speak weakly by their absence, and only where codes are read', () => {
    const { evidence } = unitStates(timeline, historyOf({ codes: [codeRecord(day, 'P0340')] }), context);
    expect(evidence.map(({ words }) => words)).toContain('no correlation code on record');
    const silent = unitStates(timeline, historyOf(), context);
    expect(silent.evidence).toEqual([]);
    const moved = nowWith(codeRecord(day, 'P0340')).chainPercent!.value / nowWith().chainPercent!.value;
    expect(moved).toBeGreaterThan(0.85);
    expect(moved).toBeLessThanOrEqual(1);
  });

  it('are read in any spelling of a reader', () => {
    expect(codeText(' p0016-00 ')).toBe('P0016');
    expect(codeText('P052A')).toBe('P052A');
    expect(codeText('none')).toBeNull();
    // SAE J2012 / ISO 15031-6: bank and cam of the correlation codes
    expect(faultCodes.get('P0018')).toMatchObject({ bank: '2', cam: 'A', group: 'chain_phase' });
    expect(faultCodes.get('P0339')?.group).toBe('crank_sensor');
  });
});
