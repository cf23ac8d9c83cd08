import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wearRemedies, wearSentences } from '../../../models/wear/causeWords.ts';
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
import type { ChargePlan } from './simulation/records.ts';

const context = { coefficients, faultCodes, fillOf: fillOfEngine(engineRecord({})) };

function explained(exposure: Partial<typeof mixedDuty>, found: boolean) {
  const plans = new Array<ChargePlan>(6).fill({ exposure: { ...mixedDuty, ...exposure } });
  const timeline = timelineOf(plans);
  const findings = found ? [findingRecord(timeline.charges[4].endDay, 'cover_view', 'moderate')] : [];
  return unitStates(timeline, historyOf({ findings }), context);
}

describe('causes of the states', () => {
  it('add up to the states', () => {
    const km = fc.double({ min: 4000, max: 25_000, noNaN: true });
    const idle = fc.double({ min: 0, max: 300, noNaN: true });
    const trip = fc.double({ min: 2, max: 60, noNaN: true });
    fc.assert(
      fc.property(km, idle, trip, fc.boolean(), (distanceKm, idleHours, tripKm, found) => {
        const { causes, now } = explained({ distanceKm, idleHours, tripKm }, found);
        const sum = (state: string) =>
          causes.reduce((total, cause) => (cause.state === state ? total + cause.amount : total), 0);
        expect(sum('sludge')).toBeCloseTo(now.sludge!.value, 9);
        expect(sum('chain')).toBeCloseTo(now.chainPercent!.value, 9);
        expect(sum('phaser')).toBeCloseTo(now.phaserShare!.value, 9);
      }),
      { numRuns: 15 },
    );
  });

  it('name what made most of it', () => {
    const late = explained({ distanceKm: 24_000, idleHours: 100, days: 500 }, false);
    const largest = (states: typeof late, state: string) =>
      states.causes.filter((cause) => cause.state === state).sort((a, b) => b.amount - a.amount)[0].cause;
    expect(largest(late, 'sludge')).toBe('drains later than the book');
    const idling = explained({ distanceKm: 8000, idleHours: 400 }, false);
    expect(largest(idling, 'sludge')).toBe('idling');
    const [sentence] = wearSentences(late.now, late.causes);
    expect(sentence).toMatch(
      /^Sludge about \d+\.\d of 10(: by its history \d+\.\d, most|, most of it) from drains later than the book/,
    );
    for (const words of wearRemedies(late.now, late.causes))
      expect(Number(/(\d+) % less/.exec(words)![1])).toBeLessThanOrEqual(100);
    expect(wearRemedies(late.now, late.causes)[0]).toContain('With drains on time');
  });
});
