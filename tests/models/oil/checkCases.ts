import type { Exposure, FuelSystem, OilEngine, OilFill } from '../../../models/oil/exposure.ts';

/** A duty of the check table and the values that the stepped calculation printed for it. */
export interface CheckCase {
  readonly name: string;
  readonly exposure: Exposure;
  readonly engine: OilEngine;
  readonly fill: OilFill;
  /** hours, base number, additive, oxidation, fuel %, soot %, KV100, dispersancy used, wear multiplier */
  readonly end: readonly [number, number, number, number, number, number, number, number, number];
  /** merit (10 less sludge; below 0 shown as 0), chain elongation % and phaser wear at 100 000 km */
  readonly at100000Km: readonly [number, number, number];
  /** chemical limit: km rounded to hundreds, engine hours, what limits */
  readonly limit: readonly [number, number, 'base_number' | 'dispersancy'];
}

interface Plain {
  readonly D: number;
  readonly v: number;
  readonly L: number;
  readonly idle: number;
  readonly T: number;
  readonly days: number;
  readonly tech: FuelSystem;
  readonly starts?: number;
  readonly lp100?: number;
  readonly sump?: number;
  readonly disp?: number;
  readonly tow?: number;
  readonly kv?: number;
}

/** Exposure, engine and fill of a duty in short form. */
export function duty(p: Plain): Pick<CheckCase, 'exposure' | 'engine' | 'fill'> {
  return {
    exposure: {
      distanceKm: p.D,
      speedKmh: p.v,
      tripKm: p.L,
      idleHours: p.idle,
      ptoHours: 0,
      days: p.days,
      ambientC: p.T,
      towingShare: p.tow ?? 0,
      dustShare: 0,
      soakedStartsPerDay: p.starts ?? 2,
      fuelLiters: null,
      litersPer100Km: p.lp100 ?? 9,
    },
    engine: {
      fuelSystem: p.tech,
      displacementL: p.disp ?? 2.5,
      sumpLiters: p.sump ?? 5,
      fuelSulfurPpm: 10,
    },
    fill: {
      kv100: p.kv ?? 10.2,
      baseNumber: 8,
      acidNumber: 2,
      dispersancyFactor: 1,
      chainWearFactor: 1,
    },
  };
}

const van = { sump: 5.7, disp: 3.5 } as const;
const mixed = { v: 45, L: 15, T: 12, days: 240, idle: 40, D: 10000 } as const;
const short = { v: 28, L: 5, T: -5, tech: 'TGDI', starts: 3 } as const;
const patrol = { v: 40, L: 12, T: 15, tech: 'GDI', lp100: 13, ...van } as const;

/** All duties of the check table. */
export const checkCases: readonly CheckCase[] = [
  {
    name: 'A highway 16000 PFI',
    ...duty({ D: 16000, v: 85, L: 60, idle: 15, T: 15, days: 180, tech: 'PFI' }),
    end: [203, 2.84, 0.6, 5.6, 0.24, 0.17, 9.94, 0.66, 1.46],
    at100000Km: [9.98, 0.11, 0.1],
    limit: [14000, 178, 'base_number'],
  },
  {
    name: 'B mixed 10000 GDI',
    ...duty({ ...mixed, tech: 'GDI' }),
    end: [262, 4.03, 0.72, 3.6, 0.74, 0.44, 9.69, 1.11, 1.72],
    at100000Km: [9.9, 0.197, 0.25],
    limit: [9000, 236, 'dispersancy'],
  },
  {
    name: 'C mixed 10000 TGDI',
    ...duty({ ...mixed, tech: 'TGDI' }),
    end: [262, 4.03, 0.72, 3.6, 1.33, 0.73, 9.49, 1.14, 2.14],
    at100000Km: [9.88, 0.238, 0.28],
    limit: [8700, 229, 'dispersancy'],
  },
  {
    name: 'D short trips cold 8000 TGDI',
    ...duty({ ...short, D: 8000, idle: 60, days: 365 }),
    end: [346, 4.53, 0.76, 3.1, 2.69, 0.63, 8.83, 2.27, 2.3],
    at100000Km: [6.53, 0.407, 1.1],
    limit: [3500, 152, 'dispersancy'],
  },
  {
    name: 'D2 short trips cold 4000 TGDI',
    ...duty({ ...short, D: 4000, idle: 30, days: 182 }),
    end: [173, 5.99, 0.87, 1.5, 2.68, 0.31, 8.7, 1.13, 1.81],
    at100000Km: [9.81, 0.315, 0.65],
    limit: [3500, 152, 'dispersancy'],
  },
  {
    name: 'E parcel van 8000 GDI',
    ...duty({ D: 8000, v: 25, L: 2, idle: 120, T: 10, days: 110, tech: 'GDI', lp100: 14, ...van }),
    end: [440, 3.6, 0.42, 11.1, 0.4, 0.46, 10.15, 1.03, 1.97],
    at100000Km: [9.85, 0.419, 0.33],
    limit: [7700, 425, 'dispersancy'],
  },
  {
    name: 'F patrol 8000 and 400 idle hours',
    ...duty({ ...patrol, D: 8000, idle: 400, days: 120 }),
    end: [600, 3.15, 0.47, 11.0, 0.48, 0.64, 10.16, 1.94, 2.14],
    at100000Km: [6.04, 0.475, 0.71],
    limit: [4100, 308, 'dispersancy'],
  },
  {
    name: 'F2 patrol 200 hours',
    ...duty({ ...patrol, D: 2670, idle: 133, days: 40 }),
    end: [200, 5.78, 0.78, 2.9, 0.48, 0.21, 9.73, 0.65, 1.41],
    at100000Km: [9.88, 0.316, 0.39],
    limit: [4100, 308, 'dispersancy'],
  },
  {
    name: 'F3 patrol 16000 and 800 idle hours',
    ...duty({ ...patrol, D: 16000, idle: 800, days: 240 }),
    end: [1200, 1.5, 0.22, 30.5, 0.48, 1.28, 11.09, 3.88, 3.3],
    at100000Km: [0, 0.77, 1.76],
    limit: [4100, 308, 'dispersancy'],
  },
  {
    name: 'G taxi hot 10000 PFI',
    ...duty({ D: 10000, v: 30, L: 10, idle: 120, T: 30, days: 40, tech: 'PFI' }),
    end: [453, 3.86, 0.33, 15.2, 0.18, 0.11, 10.33, 1.17, 1.6],
    at100000Km: [9.75, 0.281, 0.2],
    limit: [8500, 385, 'dispersancy'],
  },
  {
    name: 'H towing half 10000 TGDI',
    ...duty({
      D: 10000,
      v: 60,
      L: 50,
      idle: 30,
      T: 25,
      days: 150,
      tech: 'TGDI',
      tow: 0.5,
      sump: 6,
      disp: 3.5,
      lp100: 14,
    }),
    end: [197, 3.37, 0.4, 12.2, 0.92, 0.84, 10.04, 0.56, 2.59],
    at100000Km: [9.97, 0.244, 0.16],
    limit: [10600, 209, 'base_number'],
  },
  {
    name: 'I diesel van 15000',
    ...duty({
      D: 15000,
      v: 45,
      L: 20,
      idle: 80,
      T: 12,
      days: 200,
      tech: 'diesel',
      sump: 7,
      disp: 2.2,
      kv: 12,
    }),
    end: [413, 3.84, 0.52, 8.0, 2.86, 0.98, 11.0, 1.0, 2.82],
    at100000Km: [9.93, 0.324, 0.24],
    limit: [15000, 412, 'dispersancy'],
  },
  {
    name: 'J mixed 20000 TGDI',
    ...duty({ ...mixed, D: 20000, idle: 80, days: 480, tech: 'TGDI' }),
    end: [524, 2.21, 0.52, 8.4, 1.33, 1.45, 9.87, 2.28, 3.26],
    at100000Km: [7.97, 0.346, 0.4],
    limit: [8700, 229, 'dispersancy'],
  },
];

/** The case of the given letter; throws when there is none. */
export function checkCase(letter: string): CheckCase {
  const found = checkCases.find((entry) => entry.name.startsWith(`${letter} `));
  if (found === undefined) throw new Error(`checkCase must know the letter, got ${letter}`);
  return found;
}
