/** A depot with its climate. */
export interface PlaceSpec {
  readonly name: string;
  readonly bays: number;
  readonly technicians: number;
  readonly weekdays: string;
  /** mean temperature by month, January to December, °C */
  readonly meanTemperatureC: readonly number[];
}

/** Three invented depots: cold hills, mild coast, warm valley. */
export const places = {
  north: {
    name: 'North Tarn depot',
    bays: 2,
    technicians: 3,
    weekdays: 'mon-fri',
    meanTemperatureC: [-9, -8, -3, 4, 10, 15, 18, 17, 12, 6, -1, -7],
  },
  harbor: {
    name: 'Harbor yard',
    bays: 3,
    technicians: 4,
    weekdays: 'mon-sat',
    meanTemperatureC: [3, 4, 6, 9, 13, 16, 19, 19, 16, 12, 7, 4],
  },
  valley: {
    name: 'Dry Valley shop',
    bays: 2,
    technicians: 2,
    weekdays: 'mon-fri',
    meanTemperatureC: [6, 8, 12, 17, 22, 27, 30, 29, 25, 18, 11, 7],
  },
} as const satisfies Record<string, PlaceSpec>;
