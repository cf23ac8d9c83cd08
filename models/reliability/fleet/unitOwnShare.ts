import { choleskySolve } from '../../numeric/cholesky.ts';
import { hazardFromToday } from './compiledAhead.ts';
import type { CompiledAhead } from './compiledAhead.ts';
import type { FleetFit } from './fleetFit.ts';
import { fleetScaleAt, localParameters, placesOf } from './structurePosterior.ts';

const step = 1e-4;

/**
 * Share of what is known of each unit's log hazard that comes from the fleet's own records: 1 − g'Σg / g'Πg, g the slope of the log hazard by the
 * parameters of the clock with the greatest weight, Σ their covariance after the records and Π before.
 * @returns 0..1 per unit
 */
export function unitOwnShare(fit: FleetFit, ahead: readonly CompiledAhead[]): Float64Array {
  const main = fit.structures.reduce((most, one, k, all) => (one.weight > all[most].weight ? k : most), 0);
  const { layout, best } = fit.structures[main];
  const compiled = ahead[main];
  const slope = new Float64Array(layout.size);
  const moved = Float64Array.from(best.mode);
  return Float64Array.from({ length: compiled.fleet.episodeCount }, (_, unit) => {
    const family = compiled.fleet.family[unit];
    const logHazard = () =>
      Math.log(Math.max(hazardFromToday(compiled, unit, localParameters(layout, moved, family), 1), 1e-300));
    const middle = logHazard();
    slope.fill(0);
    let before = 0;
    for (const place of placesOf(layout, family)) {
      moved[place] += step;
      slope[place] = (logHazard() - middle) / step;
      moved[place] = best.mode[place];
      const { sd } = layout.priors[place];
      // a family's log scale is the fleet's plus its own spread
      const variance =
        sd < Infinity ? sd * sd : layout.priors[fleetScaleAt].sd ** 2 + best.spread * best.spread;
      before += slope[place] ** 2 * variance;
    }
    if (!(before > 0)) return 0;
    const solved = choleskySolve(best.precisionFactor, layout.size, slope);
    let after = 0;
    for (let i = 0; i < layout.size; i++) after += slope[i] * solved[i];
    return Math.min(Math.max(1 - after / before, 0), 1);
  });
}
