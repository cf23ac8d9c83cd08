import type { UnitTimeline } from '../oil/charge.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { Prior } from './assimilate.ts';
import { latent, latentCount, rateCount, spreadOfRate, taughtCount } from './latents.ts';
import type { RatePrior } from './latents.ts';

/** What of a unit's unknowns is in play. */
export interface InPlay {
  readonly samples: boolean;
  readonly chain: boolean;
  readonly phaser: boolean;
  /** life before the records, with the chance that a part had been renewed in it; null: none */
  readonly before: { readonly chainRenewed: number; readonly phaserRenewed: number } | null;
  readonly hiddenDrains: boolean;
  readonly twoBanks: boolean;
  readonly phase1: boolean;
  readonly phase2: boolean;
  /** a screen was cleaned and looked at */
  readonly screenCleaned: boolean;
}

/** Doubt about the exposure as spread of the rates it drives, by rate (log-sd); 0 where everything was measured. */
export function exposureDoubt(timeline: UnitTimeline): Float64Array {
  let hours = 0;
  let driving = 0;
  let idle = 0;
  let distance = 0;
  let idleShare = 0;
  let starts = 0;
  for (const { exposure, spread } of timeline.charges) {
    const drivingHours = exposure.distanceKm / exposure.speedKmh + exposure.ptoHours;
    const weight = drivingHours + exposure.idleHours;
    hours += weight;
    driving += drivingHours * spread.drivingHours;
    idle += exposure.idleHours * spread.idleHours;
    distance += weight * spread.distance;
    idleShare += exposure.idleHours;
    starts += weight * Math.hypot(spread.starts, spread.tripKm / 2);
  }
  const doubt = new Float64Array(rateCount);
  if (!(hours > 0)) return doubt;
  const ofHours = Math.hypot(driving, idle) / hours;
  const ofDistance = distance / hours;
  const ofStarts = starts / hours;
  const idleWeight = idleShare / hours;
  doubt[latent.baseNumberLife] = Math.hypot(ofDistance, (idle / hours) * 0.5);
  doubt[latent.oxidation] = ofHours;
  doubt[latent.fuel] = Math.hypot(0.3 * ofHours, 0.4 * ofStarts);
  doubt[latent.soot] = ofDistance;
  doubt[latent.precursor] = Math.hypot(ofHours * (1 + 0.5 * idleWeight), 0.4 * ofStarts);
  doubt[latent.sludge] = ofHours;
  doubt[latent.chain] = ofHours;
  doubt[latent.phaser] = Math.hypot(0.6 * ofHours, 0.5 * ofStarts);
  return doubt;
}

/**
 * What is believed of a unit's unknowns before its own evidence: the family's rates, widened by the doubt about the
 * exposure and by what the model leaves out, and the middle of everything else.
 */
export function unitPrior(
  timeline: UnitTimeline,
  family: RatePrior,
  inPlay: InPlay,
  coefficients: Coefficients,
): Prior {
  const mean = new Float64Array(latentCount);
  mean.set(family.mean);
  const sd = new Float64Array(latentCount);
  const c = (id: string): number => coefficients[`evidence.${id}`];
  const active: number[] = [];
  const add = (index: number, width: number): void => {
    active.push(index);
    sd[index] = width;
  };
  const doubt = exposureDoubt(timeline);
  for (let i = 0; i < taughtCount; i++) {
    if (i === latent.baseNumberLife && !inPlay.samples) continue;
    if ((i === latent.chain && !inPlay.chain) || (i === latent.phaser && !inPlay.phaser)) continue;
    if (i === latent.phaseOffset && !inPlay.phase1 && !inPlay.phase2) continue;
    const left =
      i === latent.sludge
        ? c('model_log_sd.sludge')
        : i === latent.chain
          ? c('model_log_sd.chain')
          : i === latent.phaser
            ? c('model_log_sd.phaser')
            : 0;
    const scale = spreadOfRate(i, family.spread);
    add(i, Math.hypot(family.covariance === null ? family.sd[i] : 0, scale * (doubt[i] ?? 0), scale * left));
  }
  const { sludge, chain, phaser } = family.spread;
  add(latent.driftSludge, sludge * c('drift_log_sd.sludge'));
  if (inPlay.chain) add(latent.driftChain, chain * c('drift_log_sd.chain'));
  if (inPlay.phaser) add(latent.driftPhaser, phaser * c('drift_log_sd.phaser'));
  if (inPlay.before !== null) {
    const { chainRenewed, phaserRenewed } = inPlay.before;
    add(latent.beforeSludge, c('prehistory_log_sd.sludge'));
    // a part renewed on the way carries what came after: half of it on average, anything between
    const addRenewable = (index: number, width: number, renewed: number): void => {
      add(index, Math.hypot(width, renewed));
      mean[index] = Math.log(1 - renewed / 2);
    };
    if (inPlay.chain) addRenewable(latent.beforeChain, c('prehistory_log_sd.chain'), chainRenewed);
    if (inPlay.phaser) addRenewable(latent.beforePhaser, c('prehistory_log_sd.phaser'), phaserRenewed);
  }
  if (inPlay.hiddenDrains) add(latent.hiddenDrains, c('hidden_drain_spread'));
  if (inPlay.twoBanks && inPlay.chain) add(latent.bankChain, c('bank_log_sd'));
  if (inPlay.twoBanks && inPlay.phaser) add(latent.bankPhaser, c('bank_log_sd'));
  if (inPlay.phase1) add(latent.phaseBias1, c('phase_bias_sd'));
  if (inPlay.phase2) add(latent.phaseBias2, c('phase_bias_sd'));
  if (inPlay.screenCleaned) add(latent.screenCarry, c('screen_carry_logit_sd'));
  const size = active.length;
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    covariance[i * size + i] = sd[active[i]] * sd[active[i]];
    if (family.covariance === null || active[i] >= taughtCount) continue;
    for (let j = 0; j < size; j++)
      if (active[j] < taughtCount)
        covariance[i * size + j] += family.covariance[active[i] * taughtCount + active[j]];
  }
  return { active, mean, covariance };
}
