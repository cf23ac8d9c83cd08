import { describe, expect, it } from 'vitest';
import { unitStates } from '../../../models/wear/unitStates.ts';
import { coefficients, faultCodes } from './catalog.ts';
import {
  engineRecord,
  fillOfEngine,
  findingRecord,
  historyOf,
  mixedDuty,
  timelineOf,
} from './simulation/records.ts';

const context = { coefficients, faultCodes, fillOf: fillOfEngine(engineRecord({})) };
const timeline = timelineOf(new Array(10).fill({ exposure: mixedDuty }));

describe('unitStates', () => {
  it('moves each state toward what was found and narrows its range', () => {
    const plain = unitStates(timeline, historyOf(), context).now;
    const day = timeline.charges[8].endDay;
    const findings = [
      findingRecord(day, 'cover_view', 'heavy'),
      findingRecord(day, 'phase_deviation_crank_deg', '4.5'),
    ];
    const found = unitStates(timeline, historyOf({ findings }), context).now;
    expect(found.sludge!.value).toBeGreaterThan(plain.sludge!.value);
    expect(found.chainPercent!.value).toBeGreaterThan(plain.chainPercent!.value);
    const width = (range: { low: number; high: number }) => Math.log(range.high / range.low);
    expect(width(found.sludge!)).toBeLessThan(width(plain.sludge!));
    expect(width(found.chainPercent!)).toBeLessThan(width(plain.chainPercent!));
  });
});
