import { isoFromDay } from '../../models/schema/day.ts';
import type { Service, WorkKind } from '../../models/schema/service.ts';
import { labSample } from './labSample.ts';
import type { DrainEvent, Life, LifeEvent, RenewalEvent } from './life.ts';
import type { Random } from './random.ts';
import type { FleetRows } from './rows.ts';
import { shopWords } from './shopWords.ts';

/** Index of a day in a life's meters. */
export function indexOn(life: Life, day: number): number {
  return Math.max(0, Math.min(life.odometerKm.length - 1, day - life.firstDay));
}

/** What was done is written down the way this shop writes; appends to `rows`, and gives the days of recorded drains. */
export function recordLife(life: Life, rows: FleetRows, random: Random): void {
  recordUnit(life, rows);
  for (const event of life.events)
    if (event.day >= life.plan.firstRecordDay) recordEvent(life, event, rows, random);
  if (life.plan.recording.otherWork) recordOtherWork(life, rows, random);
  recordReadings(life, rows, random);
  if (life.plan.recording.fuelFills) recordFuel(life, rows, random);
}

function recordUnit(life: Life, rows: FleetRows): void {
  const { plan } = life;
  rows.units.push({
    unitNumber: plan.unitNumber,
    vin: plan.vin,
    description: plan.description,
    site: plan.place.name,
    duty: plan.duty.name,
    engineFamily: plan.family.engine.engineFamily,
    inServiceOn: isoFromDay(plan.inServiceDay),
    inServiceOdometerKm: plan.inServiceOdometerKm,
    plannedDisposalOn: plan.plannedDisposalDay === null ? null : isoFromDay(plan.plannedDisposalDay),
    status: life.disposedDay === null ? 'active' : 'retired',
    powertrain: 'engine',
    ...(plan.acquiredDay === null
      ? {}
      : {
          acquiredOn: isoFromDay(plan.acquiredDay),
          acquiredOdometerKm: Math.round(life.odometerKm[indexOn(life, plan.acquiredDay)]!),
        }),
    ...(life.disposedDay === null
      ? {}
      : { disposedOn: isoFromDay(life.disposedDay), disposalReason: life.disposalReason }),
  });
}

function recordEvent(life: Life, event: LifeEvent, rows: FleetRows, random: Random): void {
  const { recording, unitNumber } = life.plan;
  const day = event.day;
  if (event.kind === 'drain') {
    if (!event.recorded) return;
    recordDrain(life, event, rows, random);
  } else if (event.kind === 'renewal') recordRenewal(life, event, rows, random);
  else if (event.kind === 'repair')
    serviceRow(life, day, event.works, rows, random, {
      note: event.note,
      costCents: 100 * random.integer(90, 420),
    });
  else if (event.kind === 'top_up') {
    if (!random.chance(recording.gradeShare)) return;
    serviceRow(life, day, ['top_up'], rows, random, { oilL: event.liters, oilGrade: event.grade });
  } else if (event.kind === 'code') {
    if (recording.codes)
      rows.codes.push({ unitNumber, seenOn: isoFromDay(day), code: event.code, status: event.status });
  } else if (event.always || random.chance(recording.findingShare))
    rows.findings.push({
      unitNumber,
      foundOn: isoFromDay(day),
      odometerKm: Math.round(life.odometerKm[indexOn(life, day)]!),
      finding: event.finding,
      value: event.value,
      note: event.note,
      bank: event.bank,
      soakH: event.soakH,
      engineRpm: event.engineRpm,
      oilTemperatureC: event.oilTemperatureC,
    });
}

function recordDrain(life: Life, event: DrainEvent, rows: FleetRows, random: Random): void {
  const { recording } = life.plan;
  const known = random.chance(recording.gradeShare);
  serviceRow(life, event.day, event.filter ? ['oil_change', 'filter'] : ['oil_change'], rows, random, {
    ...(known
      ? {
          oilGrade: event.grade,
          oilCategory: event.category,
          oilL: event.liters,
          filterChanged: event.filter,
        }
      : {}),
    costCents: 100 * random.integer(62, 128),
  });
  if (!random.chance(recording.sampleShare)) return;
  const number = `L${isoFromDay(event.day).slice(2, 4)}-${life.plan.unitNumber}-${random.integer(100, 999)}`;
  rows.samples.push(labSample(life.plan, event, life.odometerKm[indexOn(life, event.day)]!, random, number));
}

function recordRenewal(life: Life, event: RenewalEvent, rows: FleetRows, random: Random): void {
  const { engine } = life.plan.family;
  if (event.disposed) return;
  const failed = event.outcome === 'failed';
  const cost = failed ? engine.unplannedCostCents : engine.plannedPartsCostCents + 9500 * engine.plannedHours;
  const scale = event.works.includes('engine')
    ? 1.5
    : event.works.includes('timing_set') || event.works.includes('belt')
      ? 1
      : 0.7;
  serviceRow(life, event.day, event.works, rows, random, {
    costCents: 100 * Math.round((cost * scale * random.logNormal(0.18)) / 100),
    labourHoursH: Math.round(2 * engine.plannedHours * scale * random.logNormal(0.15)) / 2,
    ...(random.chance(life.plan.recording.outcomeShare) ? { outcome: event.outcome } : {}),
    note: failed ? `unit down ${event.downDays} days` : null,
  });
}

/** One row of service history. */
export function serviceRow(
  life: Life,
  day: number,
  works: readonly WorkKind[],
  rows: FleetRows,
  random: Random,
  fields: Partial<Service>,
): void {
  const { recording, unitNumber } = life.plan;
  const i = indexOn(life, day);
  const late = random.chance(recording.lateShare);
  const outside = late || random.chance(0.12);
  rows.service.push({
    unitNumber,
    servicedOn: isoFromDay(day),
    odometerKm: random.chance(recording.odometerShare) ? Math.round(life.odometerKm[i]!) : null,
    engineHoursH: recording.hours && random.chance(0.85) ? Math.round(life.engineHours[i]!) : null,
    idleHoursH: recording.idle && random.chance(0.6) ? Math.round(life.idleHours[i]!) : null,
    work: shopWords(works, random, { grade: fields.oilGrade ?? null, liters: fields.oilL ?? null }),
    shop: outside
      ? random.pick(['contract garage 1', 'contract garage 2', 'roadside contractor'])
      : life.plan.place.name,
    ...fields,
    ...(late ? { recordedOn: isoFromDay(day + random.integer(20, 75)) } : {}),
    works,
  });
}

function recordOtherWork(life: Life, rows: FleetRows, random: Random): void {
  for (
    let day = life.plan.firstRecordDay + random.integer(5, 200);
    day <= life.lastDay;
    day += random.integer(60, 330)
  )
    serviceRow(life, day, [random.chance(0.3) ? 'inspection' : 'other'], rows, random, {
      costCents: 100 * random.integer(25, 560),
    });
}

function recordReadings(life: Life, rows: FleetRows, random: Random): void {
  const { recording, unitNumber, firstRecordDay, duty } = life.plan;
  if (recording.readingEveryDays === null) return;
  let previous: number | null = null;
  const step = recording.readingEveryDays;
  for (let due = firstRecordDay + random.integer(0, step); due <= life.lastDay; due += step) {
    const day = Math.min(life.lastDay, due + random.integer(0, 3));
    if (random.chance(recording.gapShare)) continue;
    const i = indexOn(life, day);
    const starts = previous === null ? null : life.starts[i]! - life.starts[indexOn(life, previous)]!;
    rows.readings.push({
      unitNumber,
      readOn: isoFromDay(day),
      odometerKm: Math.round(life.odometerKm[i]!),
      ...(recording.hours ? { engineHoursH: tenth(life.engineHours[i]!) } : {}),
      ...(recording.idle ? { idleHoursH: tenth(life.idleHours[i]!) } : {}),
      ...(recording.idle && duty.ptoHoursPerWorkday > 0 ? { ptoHoursH: tenth(life.ptoHours[i]!) } : {}),
      ...(recording.fuelMeter ? { fuelL: Math.round(life.fuelLiters[i]!) } : {}),
      ...(recording.starts && starts !== null
        ? { starts: Math.round(starts), shortTripShare: shortShare(duty.tripKm) }
        : {}),
      ...(recording.starts && duty.towingShare > 0 ? { towingShare: duty.towingShare } : {}),
    });
    previous = day;
  }
}

/** Share of trips below 8 km when trip lengths are exponential. */
function shortShare(tripKm: number): number {
  return Math.round(100 * (1 - Math.exp(-8 / tripKm))) / 100;
}

function recordFuel(life: Life, rows: FleetRows, random: Random): void {
  const { family, unitNumber, firstRecordDay } = life.plan;
  const tank = family.engine.fuelSystem === 'diesel' || family.engine.displacementL > 3 ? 78 : 48;
  let filled = life.fuelLiters[indexOn(life, firstRecordDay)]!;
  let next = tank * (0.55 + 0.3 * random.uniform());
  for (let day = firstRecordDay + 1; day <= life.lastDay; day++) {
    const burned = life.fuelLiters[indexOn(life, day)]! - filled;
    if (burned < next) continue;
    rows.fuel.push({
      unitNumber,
      filledOn: isoFromDay(day),
      odometerKm: Math.round(life.odometerKm[indexOn(life, day)]!),
      fuelL: tenth(burned),
    });
    filled += burned;
    next = tank * (0.55 + 0.3 * random.uniform());
  }
}

function tenth(value: number): number {
  return Math.round(10 * value) / 10;
}
