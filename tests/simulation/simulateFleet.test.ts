import { describe, expect, test } from 'vitest';
import { dayFromIso } from '../../models/schema/day.ts';
import { kindTable, recordKinds } from '../../models/schema/kinds.ts';
import { duties } from './duty.ts';
import { families } from './family.ts';
import { fleetHistoryOf } from './history.ts';
import { atDistance, oneUnit } from './oneUnit.ts';
import { places } from './place.ts';
import { randomFrom } from './random.ts';
import { lawVariants, type LawVariant } from './rates.ts';
import { sampleFleet, sampleFleets } from './sampleFleet.ts';
import { simulateFleet } from './simulateFleet.ts';
import { failuresBetween, stateOn, unitTruth } from './truth.ts';

const variants = Object.keys(lawVariants) as LawVariant[];
const mixed = sampleFleet(sampleFleets.mixed);

/** FNV-1a over a text, to compare bytes between machines. */
function hashOf(text: string): number {
  let hash = 2166136261;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 16777619);
  return hash >>> 0;
}

describe('random numbers', () => {
  test('are those of the generator on every machine', () => {
    const random = randomFrom(1, 'check');
    const first = [random.uniform(), random.uniform(), random.uniform()].map((u) =>
      Math.round(u * 4294967296),
    );
    expect(first).toEqual([1172341845, 2866315801, 1594599388]);
  });

  test('have the moments they should', () => {
    const random = randomFrom(2, 'moments');
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < 20000; i++) {
      const z = random.normal();
      sum += z;
      squares += z * z;
    }
    expect(Math.abs(sum / 20000)).toBeLessThan(0.03);
    expect(squares / 20000).toBeGreaterThan(0.96);
    expect(squares / 20000).toBeLessThan(1.04);
  });
});

describe('determinism', () => {
  test('the same options give the same bytes, another seed others', () => {
    const a = simulateFleet(sampleFleets.tiny);
    const b = simulateFleet(sampleFleets.tiny);
    const c = simulateFleet({ ...sampleFleets.tiny, seed: 99 });
    for (const kind of recordKinds) expect(a.files[kind]).toBe(b.files[kind]);
    expect(JSON.stringify(a.truth)).toBe(JSON.stringify(b.truth));
    expect(c.files.service).not.toBe(a.files.service);
  });

  test('the bytes are those of other machines', () => {
    const text = recordKinds.map((kind) => sampleFleet(sampleFleets.tiny).files[kind]).join('\n');
    expect(hashOf(text)).toBe(864979831);
  });

  test('refuses a fleet without units or years', () => {
    expect(() => simulateFleet({ ...sampleFleets.tiny, units: 0 })).toThrow(
      'units must be at least 1, got 0',
    );
    expect(() => simulateFleet({ ...sampleFleets.tiny, years: 0 })).toThrow('years must be above 0, got 0');
  });
});

describe.each(variants)('orders of magnitude under the %s laws', (physics) => {
  const patrol = (intervalKm: number, intervalHours: number | null) =>
    oneUnit({
      duty: duties.patrol,
      family: families.dorrowin,
      place: places.harbor,
      habit: { intervalKm, intervalHours, intervalMonths: 12 },
      physics,
    });

  test('a highway unit at the book interval is clean at 100 000 km', () => {
    const life = oneUnit({
      duty: duties.highway,
      family: families.pimmeck,
      place: places.harbor,
      habit: { intervalKm: 16000, intervalHours: null, intervalMonths: 12 },
      physics,
    });
    const state = atDistance(life, 100000);
    expect(state.sludge).toBeLessThan(0.3);
    expect(state.chainPercent!).toBeGreaterThan(0.05);
    expect(state.chainPercent!).toBeLessThan(0.2);
    expect(state.phaserShare!).toBeLessThan(0.2);
  });

  test('an idling patrol at twice the interval is in trouble within 30 000 to 60 000 km', () => {
    const life = patrol(16000, null);
    expect(atDistance(life, 12000).sludge).toBeLessThan(4);
    expect(atDistance(life, 60000).sludge).toBeGreaterThan(4);
    expect(atDistance(life, 100000).chainPercent!).toBeGreaterThan(0.25);
  });

  test('the same patrol on 200 hours stays well', () => {
    const state = atDistance(patrol(20000, 200), 100000);
    expect(state.sludge).toBeLessThan(1);
    expect(state.phaserShare!).toBeLessThan(0.5);
  });

  test('halving the interval never makes anything worse', () => {
    const long = atDistance(patrol(12000, null), 80000);
    const short = atDistance(patrol(6000, null), 80000);
    expect(short.sludge).toBeLessThan(long.sludge);
    expect(short.chainPercent!).toBeLessThan(long.chainPercent!);
    expect(short.phaserShare!).toBeLessThan(long.phaserShare!);
  });

  test('short cold trips dilute the oil more than the highway does', () => {
    const fuel = (
      duty: (typeof duties)[keyof typeof duties],
      place: (typeof places)[keyof typeof places],
    ) => {
      const habit = { intervalKm: 8000, intervalHours: null, intervalMonths: 6 };
      const life = oneUnit({ duty, family: families.vessimo, place, habit, physics, years: 3 });
      const drained = life.events.flatMap((event) => (event.kind === 'drain' ? [event.oil.fuelPercent] : []));
      return drained.reduce((a, b) => a + b, 0) / drained.length;
    };
    const cold = fuel(duties.meterReading, places.north);
    expect(cold).toBeGreaterThan(1.5);
    expect(cold).toBeLessThan(8);
    expect(fuel(duties.highway, places.valley)).toBeLessThan(0.6 * cold);
  });
});

describe('records against the truth', () => {
  test('every meter in the files lies between the truths of the months around it', () => {
    let checked = 0;
    const wrong: string[] = [];
    for (const row of mixed.rows.readings) {
      const day = dayFromIso(row.readOn!);
      const unit = unitTruth(mixed.truth, row.unitNumber!, day);
      const before = unit.months.filter((m) => m.day <= day).at(-1);
      const after = unit.months.find((m) => m.day >= day)!;
      const meters = [
        ['odometerKm', row.odometerKm],
        ['engineHours', row.engineHoursH],
        ['idleHours', row.idleHoursH],
      ] as const;
      for (const [meter, value] of meters) {
        if (value === undefined || value === null) continue;
        checked++;
        if (value < (before?.[meter] ?? 0) - 1 || value > after[meter] + 1)
          wrong.push(`${row.unitNumber} ${row.readOn} ${meter} ${value}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(checked).toBeGreaterThan(5000);
  });

  test('every recorded drain is in the service file and no hidden one is', () => {
    let hidden = 0;
    const rows = new Set(mixed.rows.service.map((row) => `${row.unitNumber}|${dayFromIso(row.servicedOn!)}`));
    for (const unit of mixed.truth.units)
      for (const drain of unit.drains) {
        if (drain.recorded) expect(rows.has(`${unit.unitNumber}|${drain.day}`)).toBe(true);
        else if (drain.day >= unit.firstRecordDay) hidden++;
      }
    expect(hidden).toBeGreaterThan(20);
  });

  test('an outcome on a row is the true one', () => {
    for (const row of mixed.rows.service) {
      if (row.outcome === undefined) continue;
      const day = dayFromIso(row.servicedOn!);
      const renewal = unitTruth(mixed.truth, row.unitNumber!, day).renewals.find((r) => r.day === day)!;
      expect(row.outcome).toBe(renewal.outcome);
      expect(row.works).toEqual(renewal.works);
    }
  });

  test('every row fits its schema', () => {
    for (const kind of recordKinds) for (const row of mixed.rows[kind]) kindTable[kind].schema.parse(row);
  });

  test('no file holds a NaN or the word undefined', () => {
    for (const kind of recordKinds) expect(mixed.files[kind]).not.toMatch(/NaN|undefined|Infinity|\{[glq]\}/);
  });

  test('a mixed fleet has failures, planned renewals, disposals, used and late rows', () => {
    const renewals = mixed.truth.units.flatMap((unit) => unit.renewals.filter((r) => r.recorded));
    expect(renewals.filter((r) => r.outcome === 'failed').length).toBeGreaterThan(10);
    expect(renewals.filter((r) => r.outcome === 'planned').length).toBeGreaterThan(5);
    expect(mixed.rows.units.filter((row) => row.disposedOn).length).toBeGreaterThan(5);
    expect(mixed.rows.units.filter((row) => row.acquiredOn).length).toBeGreaterThan(2);
    expect(mixed.rows.service.filter((row) => row.recordedOn).length).toBeGreaterThan(30);
  });

  test('units that failed were worn more than the rest', () => {
    const day = mixed.truth.endDay - 365;
    const worn = (failed: boolean) => {
      const shares = mixed.truth.units
        .filter((unit) => unit.inServiceDay < day - 60 && unit.lastDay >= day)
        .filter((unit) => failuresBetween(unit, day, day + 365).length > 0 === failed)
        .map((unit) => {
          const state = stateOn(unit, day);
          return Math.max((state.chainPercent ?? 0) / 0.5, state.phaserShare ?? 0, state.beltShare ?? 0);
        });
      return shares.reduce((a, b) => a + b, 0) / shares.length;
    };
    expect(worn(true)).toBeGreaterThan(1.3 * worn(false));
  });
});

describe('histories for the models', () => {
  test('hold what was known on the day and nothing later', () => {
    const history = fleetHistoryOf(mixed.rows, '2022-06-30');
    expect(history.units.length).toBeGreaterThan(60);
    for (const entry of history.units) {
      for (const row of entry.services)
        expect(row.servicedOn <= '2022-06-30' && (row.recordedOn ?? '') <= '2022-06-30').toBe(true);
      for (const row of entry.samples) expect((row.reportedOn ?? '') <= '2022-06-30').toBe(true);
      expect(entry.unit.disposedOn === null || entry.unit.disposedOn <= '2022-06-30').toBe(true);
      const dates = entry.services.map((row) => row.servicedOn);
      expect(dates).toEqual([...dates].sort());
    }
  });
});
