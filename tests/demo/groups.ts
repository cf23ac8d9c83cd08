import { dayFromIso } from '../../models/schema/day.ts';
import { duties, type DutySpec } from '../simulation/duty.ts';
import { families, type FamilySpec } from '../simulation/family.ts';
import { places, type PlaceSpec } from '../simulation/place.ts';
import type { UnitPlan } from '../simulation/plan.ts';
import { weighted } from '../simulation/planFleet.ts';
import { randomFrom, type Random } from '../simulation/random.ts';
import { recordingHabits, type RecordingName } from '../simulation/recording.ts';
import type { DrainHabit } from '../simulation/truth.ts';
import { vinFor } from '../simulation/vin.ts';

export const demoSeed = 12;
export const firstDay = dayFromIso('2020-11-01');
export const endDay = dayFromIso('2026-10-31');

interface Group {
  readonly duty: DutySpec;
  readonly family: FamilySpec;
  readonly place: PlaceSpec;
  readonly count: number;
  readonly firstNumber: number;
  /** what the county's shop aims at for this group */
  readonly intervalKm: number;
  readonly intervalHours: number | null;
  readonly intervalMonths: number;
  readonly recording: Readonly<Partial<Record<RecordingName, number>>>;
  readonly words: string;
}

const telematics = { rich: 3, fair: 4 } as const;
const northern = { fair: 5, hoursOnly: 2 } as const;
const paper = { hoursOnly: 3, odometerOnly: 4 } as const;

/** 120 units in thirteen groups. */
export const groups: readonly Group[] = [
  group(
    duties.highway,
    families.pimmeck,
    places.harbor,
    12,
    1101,
    11800,
    240,
    11,
    telematics,
    'sedan, road inspection',
  ),
  group(
    duties.highway,
    families.pimmeck,
    places.valley,
    6,
    1121,
    11800,
    null,
    12,
    paper,
    'sedan, road inspection',
  ),
  group(
    duties.patrol,
    families.dorrowin,
    places.harbor,
    14,
    2201,
    7600,
    238,
    6,
    telematics,
    'pursuit sedan V6',
  ),
  group(
    duties.patrol,
    families.dorrowin,
    places.north,
    8,
    2221,
    7600,
    238,
    6,
    northern,
    'utility wagon V6 AWD',
  ),
  group(duties.mailVan, families.brimsel, places.harbor, 12, 3301, 5000, 208, 6, telematics, 'mail van'),
  group(
    duties.mailVan,
    families.pimmeck,
    places.valley,
    6,
    3321,
    4500,
    null,
    6,
    paper,
    'mail van, long body',
  ),
  group(
    duties.winterTow,
    families.quorrin,
    places.north,
    12,
    4401,
    9600,
    330,
    6,
    northern,
    'plow truck, diesel',
  ),
  group(duties.winterTow, families.vessimo, places.north, 8, 4421, 5900, 200, 6, northern, 'pickup, trailer'),
  group(
    duties.meterReading,
    families.vessimo,
    places.north,
    8,
    5501,
    3100,
    null,
    6,
    northern,
    'small wagon, meter reading',
  ),
  group(
    duties.meterReading,
    families.brimsel,
    places.harbor,
    8,
    5521,
    3600,
    null,
    6,
    telematics,
    'small van, meter reading',
  ),
  group(duties.mixed, families.pimmeck, places.harbor, 8, 6601, 8700, 240, 11, telematics, 'works van'),
  group(duties.mixed, families.vessimo, places.valley, 8, 6621, 7300, null, 11, paper, 'crew van'),
  group(duties.mixed, families.quorrin, places.valley, 6, 6641, 11500, 330, 11, paper, 'flatbed, diesel'),
  group(
    duties.mixed,
    families.yarrowen,
    places.harbor,
    4,
    6661,
    8200,
    235,
    11,
    telematics,
    'bucket truck, natural gas',
  ),
];

function group(
  duty: DutySpec,
  family: FamilySpec,
  place: PlaceSpec,
  count: number,
  firstNumber: number,
  intervalKm: number,
  intervalHours: number | null,
  intervalMonths: number,
  recording: Group['recording'],
  words: string,
): Group {
  return {
    duty,
    family,
    place,
    count,
    firstNumber,
    intervalKm,
    intervalHours,
    intervalMonths,
    recording,
    words,
  };
}

/** Most units are kept as the shop means to, some go by a longer sticker, a few are forgotten. */
function drainHabit(entry: Group, random: Random): DrainHabit {
  const care = weighted(random, { kept: 74, sticker: 17, forgotten: 9 });
  const stretch = care === 'kept' ? 0.93 : care === 'sticker' ? 1.24 : 1.7;
  return {
    intervalKm: Math.round(entry.intervalKm * stretch),
    intervalHours: entry.intervalHours === null || care !== 'kept' ? null : entry.intervalHours,
    intervalMonths: Math.round(entry.intervalMonths * Math.max(1, stretch)),
    lateLogSd: care === 'kept' ? 0.07 : 0.15,
    missedChance: care === 'kept' ? 0.004 : 0.05,
    elsewhereChance: entry.place === places.valley ? 0.06 : 0.02,
    wrongOil: care === 'forgotten' ? { chance: 0.15, grade: '10W-30', category: 'API SN' } : null,
  };
}

/** The plan of every unit before the stories are written in. */
export function basePlans(): UnitPlan[] {
  let index = 0;
  return groups.flatMap((entry) =>
    Array.from({ length: entry.count }, (_, i) => basePlan(entry, i, index++)),
  );
}

function basePlan(entry: Group, i: number, index: number): UnitPlan {
  const random = randomFrom(demoSeed, `demo plan ${index}`);
  // in service between 2014 and 2026, spread evenly within a group
  const age = ((i + random.uniform()) / entry.count) * 0.94;
  const inServiceDay = Math.round(endDay - 60 - (1 - age) * 3600);
  const firstRecordDay = Math.max(firstDay, inServiceDay);
  return {
    unitNumber: String(entry.firstNumber + i),
    vin: random.chance(0.9) ? vinFor(demoSeed, index) : null,
    description: entry.words,
    place: entry.place,
    duty: entry.duty,
    family: entry.family,
    inServiceDay,
    inServiceOdometerKm: random.integer(8, 70),
    firstRecordDay,
    lastDay: endDay,
    disposalDay: null,
    disposalReason: null,
    plannedDisposalDay: Math.max(endDay + 60, inServiceDay + 3950) + random.integer(0, 500),
    acquiredDay: null,
    habit: drainHabit(entry, random),
    recording: recordingHabits[weighted(random, entry.recording)],
    useFactor: random.logNormal(0.16),
    idleFactor: random.logNormal(0.2),
    speedFactor: random.logNormal(0.06),
    oilLossPer1000Km: 0.05 * random.logNormal(0.7),
    wearAtStart: null,
    scripted: [],
    cleanDay: null,
    drainPause: null,
    quietFromDay: endDay - 45,
    disturbed: true,
    spareUntilDay: null,
  };
}
