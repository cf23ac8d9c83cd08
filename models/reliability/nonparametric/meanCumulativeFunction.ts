import { normalQuantile } from '../../numeric/normal.ts';

/** One unit's repair history on its own time axis. */
export interface RepairHistory {
  readonly repairs: readonly number[];
  /** observed up to here */
  readonly end: number;
  /** observed from here; default 0 */
  readonly start?: number;
}

export interface MeanCumulativePoint {
  readonly time: number;
  readonly atRisk: number;
  readonly repairs: number;
  /** mean number of repairs per unit up to the time */
  readonly mean: number;
  readonly se: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Mean cumulative function of repairs with Nelson's robust variance, which needs no model of how a unit's repairs hang together
 * (Nelson, Technometrics 37, 1995; Lawless & Nadeau 1995). Limits are normal on the log scale.
 * @returns one point per distinct repair time; 41 engines' valve seats at 400 d → 0.6585, se 0.1318
 * @throws RangeError when a repair lies outside its unit's observed time
 */
export function meanCumulativeFunction(
  units: readonly RepairHistory[],
  coverage = 0.95,
): MeanCumulativePoint[] {
  const counts = new Map<number, number[]>();
  units.forEach(({ repairs, start = 0, end }, unit) => {
    for (const time of repairs) {
      if (!(time >= start && time <= end))
        throw new RangeError(`unit ${unit}: repair must lie from ${start} to ${end}, got ${time}`);
      const list = counts.get(time) ?? [];
      list.push(unit);
      counts.set(time, list);
    }
  });
  const deviate = normalQuantile(0.5 + coverage / 2);
  const residual = new Float64Array(units.length);
  const own = new Float64Array(units.length);
  let mean = 0;
  return [...counts.entries()]
    .sort((a, b) => a[0] - b[0])
    .map(([time, repaired]) => {
      own.fill(0);
      for (const unit of repaired) own[unit]++;
      const inRisk = ({ start = 0, end }: RepairHistory) => start <= time && time <= end;
      const atRisk = units.filter(inRisk).length;
      const increment = repaired.length / atRisk;
      mean += increment;
      let variance = 0;
      units.forEach((history, unit) => {
        if (inRisk(history)) residual[unit] += (own[unit] - increment) / atRisk;
        variance += residual[unit] * residual[unit];
      });
      const se = Math.sqrt(variance);
      const reach = Math.exp((deviate * se) / mean);
      return { time, atRisk, repairs: repaired.length, mean, se, low: mean / reach, high: mean * reach };
    });
}
