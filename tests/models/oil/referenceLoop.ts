import type { Coefficients } from '../../../models/schema/coefficient.ts';
import type { Exposure, OilEngine, OilFill, RateMultipliers } from '../../../models/oil/exposure.ts';

/** What the step-by-step calculation gives; the same values as the condition model. */
export interface LoopResult {
  readonly hours: number;
  readonly fuelLiters: number;
  readonly coldHours: number;
  readonly baseNumber: number;
  readonly additiveShare: number;
  readonly oxidation: number;
  readonly fuelPercent: number;
  readonly sootPercent: number;
  readonly kv100: number;
  readonly thinKv100: number;
  readonly dispersancyUsed: number;
  readonly wearMultiplier: number;
  readonly sludge: number;
  readonly chainPercent: number;
  readonly phaserClean: number;
}

const number = (viscosity: number) => 14.534 * Math.log(Math.log(viscosity + 0.8)) + 10.975;
const viscosity = (blend: number) => Math.exp(Math.exp((blend - 10.975) / 14.534)) - 0.8;

/**
 * The state equations by plain steps, written apart from the model: each step uses the state at its end.
 * First-order in 1/steps; {@link smoothLoop} takes that error out.
 */
export function steppedLoop(
  e: Exposure,
  engine: OilEngine,
  fill: OilFill,
  rates: RateMultipliers,
  k: Coefficients,
  steps = 400,
): LoopResult {
  const own = (id: string) => k[`oil.${id}.${engine.fuelSystem}`]!;
  const oil = (id: string) => k[`oil.${id}`]!;
  const wear = (id: string) => k[`wear.${id}`]!;
  const arrhenius = (t: number) =>
    Math.exp((-oil('oxidation_activation') / 8.314) * (1 / (t + 273.15) - 1 / 373.15));
  const sump = engine.sumpLiters;
  const ambient = e.ambientC - 20;
  const below = Math.max(0, -ambient);
  const driving = e.distanceKm / e.speedKmh;
  const starts = Math.min(e.distanceKm / e.tripKm, e.soakedStartsPerDay * e.days);
  const warmUp = oil('warm_up_minutes') + oil('warm_up_per_degree') * below;
  const cold = (starts * Math.min((e.tripKm / e.speedKmh) * 60, warmUp)) / 60;
  const warm = Math.max(0, driving - cold);
  const idle = e.idleHours;
  const load = e.ptoHours;
  const drivingC = (e.speedKmh < 60 ? 95 : 100) + 0.1 * ambient + 15 * e.towingShare;
  const idleC = own('idle_temperature') - 0.4 * below + 0.15 * Math.max(0, ambient);
  const loadC = 95 + 0.1 * ambient;
  const fuelLiters =
    e.fuelLiters ??
    (e.distanceKm * (e.litersPer100Km ?? own('fuel_per_distance') * engine.displacementL)) / 100 +
      (idle * 0.31 + load * oil('pto_fuel_burn')) * engine.displacementL;
  const hours = driving + idle + load;
  const coldIdle = hours > 0 ? (cold + idle) / hours : 0;
  const f = 1 / steps;
  const inflow =
    (5 / sump) *
    rates.fuel *
    f *
    (starts * own('start_fuel') * (1 + 0.03 * below) +
      own('driving_fuel') * (warm * (1 + 0.5 * e.towingShare) + load) +
      own('idle_fuel') * idle);
  const loss = Math.max(
    1e-9,
    f *
      (own('driving_fuel_loss') * (warm + load) +
        own('idle_fuel_loss') * idle +
        own('cold_fuel_loss') * cold),
  );
  const thermal =
    f *
    (arrhenius(drivingC) * warm +
      arrhenius(loadC) * load +
      arrhenius(idleC) * idle +
      arrhenius(oil('cold_temperature')) * cold);
  const slow = Math.max(0, (45 - e.speedKmh) / 45);
  const precursor =
    ((f * (5 / sump) * rates.precursor) / fill.dispersancyFactor) *
    (oil('precursor_driving') *
      ((1 + 0.6 * slow) * warm * Math.sqrt(arrhenius(drivingC)) + load * Math.sqrt(arrhenius(loadC))) +
      oil('precursor_idle') * idle +
      oil('precursor_cold') * cold * (1 + 0.02 * below));
  let fuel = 0;
  let additive = 1;
  let oxidation = 0;
  let dispersancy = 0;
  let soot = 0;
  let base = fill.baseNumber;
  let sludge = 0;
  let chain = 0;
  let phaser = 0;
  let multiplier = 0;
  let thin = fill.kv100;
  for (let i = 0; i < steps; i++) {
    fuel = fuel * Math.exp(-loss) + (inflow * -Math.expm1(-loss)) / loss;
    additive *= Math.exp(-oil('additive_rate') * rates.oxidation * thermal);
    oxidation +=
      oil('oxidation_rate') *
      rates.oxidation *
      own('oxidation_factor') *
      thermal *
      (1 + 3 * (1 - additive) ** 2) *
      (1 + 0.6 * coldIdle);
    soot += ((own('soot_per_fuel') * rates.soot * fuelLiters * f) / sump) * (1 + 0.5 * coldIdle);
    base =
      0.8 +
      (base - 0.8) * Math.exp((-fuelLiters * f) / (sump * oil('base_number_life') * rates.baseNumberLife)) -
      (oil('sulfur_capture') * 3.5 * engine.fuelSulfurPpm * fuelLiters * f * 0.745) / (1000 * sump * 0.85);
    dispersancy += precursor * (1 + 0.05 * fuel);
    sludge +=
      (wear('sludge_background') * dispersancy +
        wear('sludge_rate') * rates.sludge * Math.max(0, dispersancy - 1)) *
      hours *
      f;
    const share = Math.min(60, fuel) / 100;
    thin = viscosity((1 - share) * number(fill.kv100) + share * number(own('fuel_viscosity'))) * 0.96;
    const m =
      (1 + 1.5 * soot) *
      (1 + 0.08 * Math.min(60, fuel)) *
      (1 + (1 - additive)) *
      Math.max(1, fill.kv100 / thin) ** 0.7 *
      (1 + 0.5 * e.dustShare) *
      fill.chainWearFactor;
    multiplier += m * f;
    chain +=
      wear('chain_rate') * rates.chain * m * (driving * (1 + 0.3 * e.towingShare) + load + 0.5 * idle) * f;
    phaser +=
      (starts / 50000 + hours / 30000) *
      rates.phaser *
      (1 + 2.5 * Math.max(0, 1 - thin / fill.kv100)) *
      (1 + 0.5 * soot) *
      f;
  }
  return {
    hours,
    fuelLiters,
    coldHours: cold,
    baseNumber: Math.max(0, base),
    additiveShare: additive,
    oxidation,
    fuelPercent: Math.min(60, fuel),
    sootPercent: soot,
    kv100: thin * (1 + 0.004 * oxidation + 0.03 * soot),
    thinKv100: thin,
    dispersancyUsed: dispersancy,
    wearMultiplier: multiplier,
    sludge,
    chainPercent: chain,
    phaserClean: phaser,
  };
}

/** The stepped loop with its first-order error taken out: twice the result of 800 steps less that of 400. */
export function smoothLoop(...args: Parameters<typeof steppedLoop>): LoopResult {
  const [e, engine, fill, rates, k] = args;
  const coarse = steppedLoop(e, engine, fill, rates, k, 400);
  const fine = steppedLoop(e, engine, fill, rates, k, 800);
  const smooth: Record<string, number> = {};
  for (const key of Object.keys(coarse) as (keyof LoopResult)[]) smooth[key] = 2 * fine[key] - coarse[key];
  return smooth as unknown as LoopResult;
}
