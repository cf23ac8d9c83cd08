import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import { families } from './family.ts';
import { randomFrom, type Random } from './random.ts';
import { csvOf, noRows, type FleetRows } from './rows.ts';
import { recordKinds, type RecordKind } from '../../models/schema/kinds.ts';

/** What really decides a sparse unit's engine lives: a median in km of its own and the steepness of all. */
export interface SparseUnitTruth {
  readonly unitNumber: string;
  readonly engineFamily: string;
  readonly inServiceDay: number;
  readonly firstRecordDay: number;
  readonly lastDay: number;
  /** distance by which half of such engines have failed, km */
  readonly medianKm: number;
  readonly kmPerDay: number;
  readonly failures: readonly {
    readonly day: number;
    readonly odometerKm: number;
    readonly recorded: boolean;
  }[];
  readonly disposedDay: number | null;
}

export interface SparseFleet {
  readonly files: Readonly<Record<RecordKind, string>>;
  readonly rows: FleetRows;
  readonly truth: {
    readonly startDay: number;
    readonly endDay: number;
    readonly steepness: number;
    readonly units: readonly SparseUnitTruth[];
  };
}

export interface SparseOptions {
  readonly seed: number;
  readonly units?: number;
  readonly years?: number;
  readonly startOn?: string;
  /** share of engine renewals whose outcome is written down as failed; the rest is left empty */
  readonly outcomeShare?: number;
}

const steepness = 3.1;
const familyNames = [
  'Arbolt 16',
  'Arbolt 20',
  'Cendry 18',
  'Cendry 24',
  'Lunvik 22D',
  'Lunvik 30D',
  'Morsel 15T',
  'Tavrin 36',
];

/**
 * A fleet that keeps odometers and engine renewals and nothing else: monthly readings over ten years, no oil history.
 * Lives follow a log-logistic law in distance whose median differs by family (log-sd 0.35) and unit (0.25).
 */
export function sparseFleet(options: SparseOptions): SparseFleet {
  const startDay = dayFromIso(options.startOn ?? '2016-01-01');
  const endDay = startDay + Math.round(365.25 * (options.years ?? 10)) - 1;
  const rows = noRows();
  const medians = familyNames.map(
    (name) => 290000 * randomFrom(options.seed, `sparse ${name}`).logNormal(0.35),
  );
  describeFamilies(rows);
  const units = Array.from({ length: options.units ?? 160 }, (_, index) => {
    const family = index % familyNames.length;
    const random = randomFrom(options.seed, `sparse unit ${index}`);
    return liveSparsely(rows, random, {
      unitNumber: `S${100 + index}`,
      engineFamily: familyNames[family]!,
      medianKm: medians[family]! * random.logNormal(0.25),
      startDay,
      endDay,
      outcomeShare: options.outcomeShare ?? 0.6,
    });
  });
  const files = Object.fromEntries(recordKinds.map((kind) => [kind, csvOf(kind, rows[kind])]));
  return { files: files as Record<RecordKind, string>, rows, truth: { startDay, endDay, steepness, units } };
}

interface SparsePlan {
  readonly unitNumber: string;
  readonly engineFamily: string;
  readonly medianKm: number;
  readonly startDay: number;
  readonly endDay: number;
  readonly outcomeShare: number;
}

function liveSparsely(rows: FleetRows, random: Random, plan: SparsePlan): SparseUnitTruth {
  const kmPerDay = 62 * random.logNormal(0.4);
  const inServiceDay = plan.startDay + random.integer(-4 * 365, 6 * 365);
  const firstRecordDay = Math.max(plan.startDay, inServiceDay);
  const soldDay = random.chance(0.3) ? firstRecordDay + random.integer(700, 3200) : null;
  const disposedDay = soldDay !== null && soldDay < plan.endDay ? soldDay : null;
  const lastDay = disposedDay ?? plan.endDay;
  const failures: SparseUnitTruth['failures'][number][] = [];
  let odometerKm = random.integer(5, 90);
  let engineKm = 0;
  let lifeKm = drawLife(random, plan.medianKm);
  let nextReading = firstRecordDay + random.integer(0, 29);
  for (let day = inServiceDay; day <= lastDay; day++) {
    const km = (day + 3) % 7 < 5 ? 1.4 * kmPerDay * (0.5 + random.uniform()) : 0;
    odometerKm += km;
    engineKm += km;
    if (engineKm >= lifeKm) {
      const recorded = day >= firstRecordDay;
      failures.push({ day, odometerKm, recorded });
      engineKm = 0;
      lifeKm = drawLife(random, plan.medianKm);
      if (recorded)
        rows.service.push({
          unitNumber: plan.unitNumber,
          servicedOn: isoFromDay(day),
          odometerKm: Math.round(odometerKm),
          work: random.pick(['engine replaced', 'engine replaced', 'replaced engine', 'R&R engine assy']),
          works: ['engine'],
          ...(random.chance(plan.outcomeShare) ? { outcome: 'failed' as const } : {}),
        });
    }
    if (day === nextReading) {
      nextReading += random.integer(28, 33);
      if (!random.chance(0.04))
        rows.readings.push({
          unitNumber: plan.unitNumber,
          readOn: isoFromDay(day),
          odometerKm: Math.round(odometerKm),
        });
    }
  }
  rows.units.push({
    unitNumber: plan.unitNumber,
    engineFamily: plan.engineFamily,
    inServiceOn: isoFromDay(inServiceDay),
    inServiceOdometerKm: 0,
    status: disposedDay === null ? 'active' : 'retired',
    ...(disposedDay === null ? {} : { disposedOn: isoFromDay(disposedDay), disposalReason: 'sold' }),
  });
  const { unitNumber, engineFamily, medianKm } = plan;
  return {
    unitNumber,
    engineFamily,
    inServiceDay,
    firstRecordDay,
    lastDay,
    medianKm,
    kmPerDay,
    failures,
    disposedDay,
  };
}

/** Distance to failure: log-logistic, S(x) = 1 / (1 + (x / median)^steepness). */
function drawLife(random: Random, medianKm: number): number {
  const u = Math.min(1 - 1e-9, Math.max(1e-9, random.uniform()));
  return medianKm * Math.exp(Math.log(u / (1 - u)) / steepness);
}

/**
 * The true chance that a unit's engine fails in the days after `day`, at its true mean use.
 * @throws when the unit is not in service on that day
 */
export function trueChance(unit: SparseUnitTruth, day: number, days: number): number {
  if (day < unit.inServiceDay || day > unit.lastDay)
    throw new Error(`trueChance: unit ${unit.unitNumber} must be in service on day ${day}`);
  const renewed = unit.failures.filter((f) => f.day <= day).at(-1)?.day ?? unit.inServiceDay;
  const survival = (km: number) => 1 / (1 + Math.exp(steepness * Math.log(Math.max(1, km) / unit.medianKm)));
  const now = (day - renewed) * unit.kmPerDay;
  return 1 - survival(now + days * unit.kmPerDay) / survival(now);
}

/** The families as such a fleet knows them: name, size and fuel, the rest borrowed from comparable ones. */
function describeFamilies(rows: FleetRows): void {
  const models = [families.pimmeck, families.vessimo, families.pimmeck, families.dorrowin];
  const dieselOrBoosted = [families.quorrin, families.quorrin, families.vessimo, families.dorrowin];
  familyNames.forEach((engineFamily, i) => {
    const { engine } = (i < 4 ? models[i] : dieselOrBoosted[i - 4])!;
    rows.engines.push({ ...engine, engineFamily, displacementL: Number(engineFamily.match(/\d+/)![0]) / 10 });
  });
}
