import type { OilFill, RateMultipliers } from '../oil/exposure.ts';
import { rateNames } from '../oil/exposure.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { chainLimitOf } from '../wear/phaseGeometry.ts';
import { fillNow } from './assessUnit.ts';
import { projectWear } from './projectWear.ts';
import type { UnitView } from './unitView.ts';

/** Life used per km at some intervals, for every draw, read between the intervals on a log scale. */
export interface LifeTable {
  readonly intervalsKm: readonly number[];
  /** draw by draw, interval by interval */
  readonly sharePerKm: readonly (readonly number[])[];
}

/**
 * Life used per km when a unit is drained at each interval, from the condition model carried over some years at its present
 * duty from a clean engine: chain elongation against twice its limit, phaser wear against its median life, sludge against
 * the index that counts as used up; joined as (Σ share^j)^(1/j), j = `policy.joining`.
 * @param deviates by draw: how far the unit's rates are from their median, standard normal
 * @param fill another oil than the one in use; null: as it is
 * @returns null where there is no oil charge or no use to carry forward
 * Source: the condition model; `policy.*` of the catalog.
 */
export function unitLifeTable(
  view: UnitView,
  intervalsKm: readonly number[],
  deviates: readonly number[],
  fill: OilFill | null,
  coefficients: Coefficients,
): LifeTable | null {
  const filled = fillNow(view.timeline, view.fillOf);
  const { duty, asOfDay } = view.timeline;
  if (filled === null || !(duty.kmPerDay > 0.5)) return null;
  const years = coefficients['policy.life_years'];
  const spanKm = duty.kmPerDay * 365.25 * years;
  const { chainPercent, phaserShare } = view.states.now;
  const limit = chainLimitOf(view.history.engine, coefficients)?.percent ?? 0.5;
  const shareOf = (intervalKm: number, rates: RateMultipliers): number => {
    const worn = projectWear(
      {
        sludge: 0,
        chainPercent: chainPercent === null ? null : 0,
        phaserShare: phaserShare === null ? null : 0,
      },
      {
        duty,
        engine: filled.engine,
        fill: fill ?? filled.fill,
        rates,
        coefficients,
        fromDay: asOfDay,
      },
      intervalKm / duty.kmPerDay,
      365.25 * years,
    );
    const shares = [
      (worn.chainPercent ?? 0) / (2 * limit),
      worn.phaserShare ?? 0,
      worn.sludge / coefficients['policy.sludge_life_index'],
    ];
    const joining = coefficients['policy.joining'];
    return shares.reduce((sum, share) => sum + share ** joining, 0) ** (1 / joining) / spanKm;
  };
  return {
    intervalsKm,
    sharePerKm: deviates.map((deviate) => {
      const rates = movedRates(view, deviate, coefficients);
      return intervalsKm.map((intervalKm) => shareOf(intervalKm, rates));
    }),
  };
}

/** The unit's rates moved by a deviate of the doubt about them; a longer life of base number is the good direction. */
function movedRates({ states }: UnitView, deviate: number, coefficients: Coefficients): RateMultipliers {
  const spread = Math.sqrt(coefficients['money.fleet_share_of_doubt']);
  const moved: Record<string, number> = {};
  for (const name of rateNames) {
    const sign = name === 'baseNumberLife' ? -1 : 1;
    moved[name] = states.rates[name] * Math.exp(sign * deviate * spread * states.ratesLogSd[name]);
  }
  return moved as unknown as RateMultipliers;
}

/** The mean of tables over the same intervals. */
export function meanTable(tables: readonly LifeTable[]): LifeTable {
  const [first] = tables;
  return {
    intervalsKm: first.intervalsKm,
    sharePerKm: first.sharePerKm.map((row, draw) =>
      row.map((_, i) => tables.reduce((sum, table) => sum + table.sharePerKm[draw][i], 0) / tables.length),
    ),
  };
}

/** Life used per km between the table's intervals, along straight lines in the logarithm of the interval. */
export function readLifeTable(
  { intervalsKm, sharePerKm }: LifeTable,
  intervalKm: number,
  draw: number,
): number {
  const row = sharePerKm[draw];
  const last = intervalsKm.length - 1;
  if (intervalKm <= intervalsKm[0]) return row[0];
  if (intervalKm >= intervalsKm[last]) return row[last];
  const above = intervalsKm.findIndex((km) => km >= intervalKm);
  const [a, b] = [intervalsKm[above - 1], intervalsKm[above]];
  const part = Math.log(intervalKm / a) / Math.log(b / a);
  return row[above - 1] + part * (row[above] - row[above - 1]);
}
