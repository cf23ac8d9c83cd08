import type { OilCharge, UnitTimeline } from '../../../../models/oil/charge.ts';
import { partOfExposure } from '../../../../models/oil/condition.ts';
import type { Exposure } from '../../../../models/oil/exposure.ts';
import { code } from '../../../../models/schema/code.ts';
import { isoFromDay } from '../../../../models/schema/day.ts';
import { engine } from '../../../../models/schema/engine.ts';
import type { Engine } from '../../../../models/schema/engine.ts';
import { finding } from '../../../../models/schema/finding.ts';
import type { FindingKind } from '../../../../models/schema/finding.ts';
import type { ServiceEvent, Sourced, UnitHistory } from '../../../../models/schema/history.ts';
import type { RecordKind } from '../../../../models/schema/kinds.ts';
import { sample } from '../../../../models/schema/sample.ts';
import type { Sample } from '../../../../models/schema/sample.ts';
import { service } from '../../../../models/schema/service.ts';
import type { WorkKind } from '../../../../models/schema/service.ts';
import { unit } from '../../../../models/schema/unit.ts';
import type { Unit } from '../../../../models/schema/unit.ts';

let nextId = 1;
const source = (kind: RecordKind) => ({ id: nextId++, kind, batch: 'b1', file: `${kind}.csv`, line: nextId });

export function sourced<T>(kind: RecordKind, record: T): Sourced<T> {
  return { ...record, source: source(kind) };
}

export const engineRecord = (fields: Partial<Engine>): Sourced<Engine> =>
  sourced(
    'engines',
    engine.parse({
      engineFamily: 'K4',
      displacementL: 2.5,
      fuelSystem: 'GDI',
      sumpL: 5,
      requiredGrade: '5W-30',
      bookIntervalKm: 12000,
      timingDrive: 'chain',
      chainPitchMm: 8,
      camSprocketTeeth: 36,
      tightStrandMm: 300,
      phasers: 2,
      interference: true,
      ...fields,
    }),
  );

export const findingRecord = (
  day: number,
  kind: FindingKind,
  value: string | null,
  more: Record<string, unknown> = {},
) =>
  sourced(
    'findings',
    finding.parse({ unitNumber: 'U1', foundOn: isoFromDay(day), finding: kind, value, ...more }),
  );

export const codeRecord = (day: number, text: string) =>
  sourced('codes', code.parse({ unitNumber: 'U1', seenOn: isoFromDay(day), code: text }));

export const sampleRecord = (day: number, fields: Partial<Sample>) =>
  sourced('samples', sample.parse({ unitNumber: 'U1', sampledOn: isoFromDay(day), ...fields }));

export function serviceRecord(
  day: number,
  works: readonly WorkKind[],
  fields: Record<string, unknown> = {},
): ServiceEvent {
  return {
    ...sourced(
      'service',
      service.parse({ unitNumber: 'U1', servicedOn: isoFromDay(day), work: works.join(' '), ...fields }),
    ),
    read: { works, oilGrade: null, oilL: null, bank: null, confidence: 1 },
  };
}

export function historyOf(parts: Partial<UnitHistory> & { unitFields?: Partial<Unit> } = {}): UnitHistory {
  const { unitFields, ...rest } = parts;
  return {
    unit: sourced('units', unit.parse({ unitNumber: 'U1', engineFamily: 'K4', ...unitFields })),
    engine: engineRecord({}),
    site: null,
    services: [],
    readings: [],
    fuel: [],
    samples: [],
    findings: [],
    codes: [],
    ...rest,
  };
}

export const mixedDuty: Exposure = {
  distanceKm: 10000,
  speedKmh: 45,
  tripKm: 15,
  idleHours: 40,
  ptoHours: 0,
  days: 240,
  ambientC: 12,
  towingShare: 0,
  dustShare: 0,
  soakedStartsPerDay: 2,
  fuelLiters: null,
  litersPer100Km: 9,
};

export const knownSpread = { distance: 0, drivingHours: 0, idleHours: 0, tripKm: 0, starts: 0, ambientC: 0 };

/** One charge of a timeline being put together: what it went through, and anything that is not as usual. */
export type ChargePlan = { readonly exposure: Exposure } & Partial<Omit<OilCharge, 'exposure'>>;

/** A timeline of charges one after the other from `startDay`; the last one is still in the engine. */
export function timelineOf(
  plans: readonly ChargePlan[],
  startDay = 18000,
  startOdometerKm = 0,
  more: Partial<UnitTimeline> = {},
): UnitTimeline {
  let day = startDay;
  let odometerKm = startOdometerKm;
  const charges: OilCharge[] = plans.map((plan, i) => {
    const charge: OilCharge = {
      startDay: day,
      endDay: day + Math.max(1, Math.round(plan.exposure.days)),
      running: i === plans.length - 1,
      startOdometerKm: odometerKm,
      endOdometerKm: odometerKm + plan.exposure.distanceKm,
      spread: knownSpread,
      inferred: [],
      grade: '5W-30',
      category: null,
      filledLiters: null,
      filterChanged: true,
      topUps: [],
      startBasis: i === 0 ? (startOdometerKm === 0 ? 'in_service' : 'first_record') : 'drain',
      hiddenDrainChance: 0,
      hiddenDrains: 0,
      faults: [],
      levelLowLiters: 0,
      breakIn: false,
      source: null,
      ...plan,
    };
    day = charge.endDay;
    odometerKm += plan.exposure.distanceKm;
    return charge;
  });
  const last = charges[charges.length - 1];
  const hoursOf = (e: Exposure) => e.distanceKm / e.speedKmh + e.idleHours + e.ptoHours;
  const chargeAt = (at: number) => charges.find((c) => at <= c.endDay) ?? last;
  const shareIn = (c: OilCharge, at: number) =>
    Math.min(1, Math.max(0, (at - c.startDay) / (c.endDay - c.startDay)));
  const sum = (pick: (e: Exposure) => number) => charges.reduce((total, c) => total + pick(c.exposure), 0);
  const days = Math.max(1, day - startDay);
  const duty = last.exposure;
  return {
    unitNumber: 'U1',
    asOfDay: day,
    inServiceDay: startOdometerKm === 0 ? startDay : null,
    firstDay: startDay,
    lastRecordDay: day,
    odometerKm,
    engineHours: sum(hoursOf),
    charges,
    duty: {
      kmPerDay: sum((e) => e.distanceKm) / days,
      engineHoursPerDay: sum(hoursOf) / days,
      idleHoursPerDay: sum((e) => e.idleHours) / days,
      ptoHoursPerDay: 0,
      idleShare: sum((e) => e.idleHours) / Math.max(1, sum(hoursOf)),
      speedKmh: duty.speedKmh,
      tripKm: duty.tripKm,
      soakedStartsPerDay: duty.soakedStartsPerDay,
      towingShare: 0,
      dustShare: 0,
      ambientByMonthC: new Array<number>(12).fill(duty.ambientC),
      litersPer100Km: duty.litersPer100Km,
      severe: false,
      severeReasons: [],
      inferred: [],
      useLogSd: 0.15,
      equivalentKmPerDay: sum((e) => e.distanceKm + 45 * e.idleHours) / days,
    },
    recordQuality: 1,
    metersDisagree: false,
    exposureBetween: (from, to) => {
      const charge = chargeAt(to);
      return partOfExposure(charge.exposure, shareIn(charge, to) - shareIn(charge, from));
    },
    metersAt: (at) => {
      if (at < startDay) return null;
      const charge = chargeAt(at);
      const done = charges.slice(0, charges.indexOf(charge));
      const total = (pick: (e: Exposure) => number) =>
        done.reduce((value, c) => value + pick(c.exposure), 0) + shareIn(charge, at) * pick(charge.exposure);
      return {
        odometerKm: startOdometerKm + total((e) => e.distanceKm),
        engineHours: total(hoursOf),
        idleHours: total((e) => e.idleHours),
      };
    },
    ...more,
  };
}

/** Fresh oil of an everyday grade in the engine of the history. */
export const standardFill = {
  kv100: 10.2,
  baseNumber: 8,
  acidNumber: 2,
  dispersancyFactor: 1,
  chainWearFactor: 1,
};
export const fillOfEngine = (record: Engine | null) => () => ({
  fill: standardFill,
  engine: {
    fuelSystem: record?.fuelSystem ?? 'GDI',
    displacementL: record?.displacementL ?? 2.5,
    sumpLiters: record?.sumpL ?? 5,
    fuelSulfurPpm: 10,
  },
});
