/** What decides whether a unit's records agree, in typed arrays; rows stand in any order. NaN = not told. */
export interface MeterTable {
  count: number;
  /** days since 1970-01-01 */
  readonly day: Int32Array;
  /** 0 for kinds that are never told twice; other numbers tell service, fills and samples apart */
  readonly visitKind: Uint8Array;
  /** file it came from */
  readonly source: Int32Array;
  readonly odometerKm: Float64Array;
  readonly engineHoursH: Float64Array;
  readonly idleHoursH: Float64Array;
  /** fuel used up to then, a meter: readings only */
  readonly fuelL: Float64Array;
  /** liters of a fill */
  readonly fillL: Float64Array;
  /** a bit for each job done that tells a visit from others */
  readonly works: Int32Array;
}

/** Numbers of {@link MeterTable.visitKind}. */
export const visitKinds = { none: 0, service: 1, fuel: 2, samples: 3 } as const;

/** A table with room for so many rows. */
export function meterTable(room: number): MeterTable {
  return {
    count: 0,
    day: new Int32Array(room),
    visitKind: new Uint8Array(room),
    source: new Int32Array(room),
    odometerKm: new Float64Array(room),
    engineHoursH: new Float64Array(room),
    idleHoursH: new Float64Array(room),
    fuelL: new Float64Array(room),
    fillL: new Float64Array(room),
    works: new Int32Array(room),
  };
}
