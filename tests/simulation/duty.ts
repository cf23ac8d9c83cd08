/** What a unit does all day. Means of a working day; each unit differs by its own factor. */
export interface DutySpec {
  readonly name: string;
  readonly kmPerWorkday: number;
  /** mean speed while driving, km/h */
  readonly speedKmh: number;
  readonly tripKm: number;
  readonly idleHoursPerWorkday: number;
  /** hours at a stand under load, per working day of the season */
  readonly ptoHoursPerWorkday: number;
  /** starts from a cooled-down engine per working day */
  readonly soakedStarts: number;
  /** 1 to 7 */
  readonly workdaysPerWeek: number;
  readonly towingShare: number;
  /** factor on use by month, January to December */
  readonly season: readonly number[];
}

const allYear = [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1];
const winter = [1.5, 1.5, 1.25, 0.8, 0.7, 0.7, 0.7, 0.7, 0.8, 0.9, 1.2, 1.45];

/** Seven duties that a mixed public fleet knows. */
export const duties = {
  highway: {
    name: 'highway inspection',
    kmPerWorkday: 150,
    speedKmh: 82,
    tripKm: 58,
    idleHoursPerWorkday: 0.25,
    ptoHoursPerWorkday: 0,
    soakedStarts: 1.6,
    workdaysPerWeek: 5,
    towingShare: 0,
    season: allYear,
  },
  patrol: {
    name: 'patrol',
    kmPerWorkday: 62,
    speedKmh: 40,
    tripKm: 12,
    idleHoursPerWorkday: 2.3,
    ptoHoursPerWorkday: 0,
    soakedStarts: 2,
    workdaysPerWeek: 6,
    towingShare: 0,
    season: allYear,
  },
  mailVan: {
    name: 'mail van',
    kmPerWorkday: 54,
    speedKmh: 25,
    tripKm: 2,
    idleHoursPerWorkday: 0.8,
    ptoHoursPerWorkday: 0,
    soakedStarts: 2,
    workdaysPerWeek: 5,
    towingShare: 0,
    season: [1, 1, 1, 1, 1, 1, 0.95, 0.9, 1, 1, 1.1, 1.25],
  },
  winterTow: {
    name: 'plow and towing',
    kmPerWorkday: 88,
    speedKmh: 48,
    tripKm: 28,
    idleHoursPerWorkday: 0.8,
    ptoHoursPerWorkday: 0.6,
    soakedStarts: 2,
    workdaysPerWeek: 5,
    towingShare: 0.45,
    season: winter,
  },
  meterReading: {
    name: 'meter reading',
    kmPerWorkday: 32,
    speedKmh: 27,
    tripKm: 4,
    idleHoursPerWorkday: 0.35,
    ptoHoursPerWorkday: 0,
    soakedStarts: 3.4,
    workdaysPerWeek: 5,
    towingShare: 0,
    season: allYear,
  },
  mixed: {
    name: 'works mixed',
    kmPerWorkday: 76,
    speedKmh: 45,
    tripKm: 14,
    idleHoursPerWorkday: 0.45,
    ptoHoursPerWorkday: 0.05,
    soakedStarts: 2.2,
    workdaysPerWeek: 5,
    towingShare: 0.05,
    season: [0.9, 0.9, 1, 1.05, 1.1, 1.1, 1.05, 1, 1.05, 1, 0.95, 0.9],
  },
} as const satisfies Record<string, DutySpec>;
