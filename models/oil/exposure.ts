/** How an engine burns its fuel; decides fuel dilution, soot and which coefficients apply. */
export type FuelSystem = 'PFI' | 'GDI' | 'TGDI' | 'diesel' | 'gas';

/**
 * What one oil charge went through between two moments: the input of the condition and wear models.
 * All values are totals of the charge unless the name says otherwise; nothing is missing here (what was inferred is
 * marked where the exposure was built).
 */
export interface Exposure {
  /** distance driven on the charge, km */
  readonly distanceKm: number;
  /** mean speed while driving, km/h, above 0; of a hybrid, distance per engine hour of driving */
  readonly speedKmh: number;
  /** hybrids: speed at which the engine itself drives, km/h, for its load; left out: `speedKmh` */
  readonly enginePaceKmh?: number;
  /** mean trip length, km, above 0 */
  readonly tripKm: number;
  /** hours at idle without load, h */
  readonly idleHours: number;
  /** hours at a stand under load (power take-off, high idle), h */
  readonly ptoHours: number;
  /** calendar days */
  readonly days: number;
  /** mean ambient temperature, °C */
  readonly ambientC: number;
  /** share of the distance with a trailer or near gross weight, 0..1 */
  readonly towingShare: number;
  /** share of the distance in dust, 0..1 */
  readonly dustShare: number;
  /** starts from a soaked, cooled-down engine per calendar day; delivery stops do not count */
  readonly soakedStartsPerDay: number;
  /** fuel burned on the charge, L, where fuel records tell it; null: estimated from distance and idle hours */
  readonly fuelLiters: number | null;
  /** fuel per distance used when fuelLiters is null, L/100 km; null: from displacement */
  readonly litersPer100Km: number | null;
}

/** The engine as the oil sees it. */
export interface OilEngine {
  readonly fuelSystem: FuelSystem;
  /** displacement, L */
  readonly displacementL: number;
  /** sump filling that really works (a low level makes it smaller), L */
  readonly sumpLiters: number;
  /** sulfur of the fuel, mg/kg */
  readonly fuelSulfurPpm: number;
}

/** The oil that was put in. */
export interface OilFill {
  /** kinematic viscosity at 100 °C when fresh, mm²/s */
  readonly kv100: number;
  /** base number when fresh, mg KOH/g */
  readonly baseNumber: number;
  /** acid number when fresh, mg KOH/g */
  readonly acidNumber: number;
  /** dispersancy against the current specification: 1.0 current, 0.75 older, 1.3 premium */
  readonly dispersancyFactor: number;
  /** chain wear against a chain-tested oil: 1.0 chain-tested, 1.4 older */
  readonly chainWearFactor: number;
}

/**
 * Multipliers on the model's rates, 1 = the coefficient as it stands. Learned by family and unit from samples and
 * findings; their logarithms are what carries the uncertainty of the rates.
 */
export interface RateMultipliers {
  /** how long base number lasts (litres of fuel per litre of sump); above 1 = lasts longer */
  readonly baseNumberLife: number;
  /** oxidation and antioxidant use */
  readonly oxidation: number;
  /** fuel that gets into the oil */
  readonly fuel: number;
  /** soot made per litre of fuel */
  readonly soot: number;
  /** dispersancy use by drive, idle and cold hours */
  readonly precursor: number;
  /** sludge laid down once dispersancy is used up */
  readonly sludge: number;
  /** chain elongation */
  readonly chain: number;
  /** phaser wear */
  readonly phaser: number;
}

/** The names of the multipliers in their fixed order, for vectors of log-rates. */
export const rateNames = [
  'baseNumberLife',
  'oxidation',
  'fuel',
  'soot',
  'precursor',
  'sludge',
  'chain',
  'phaser',
] as const satisfies readonly (keyof RateMultipliers)[];

/** All rates as the catalog has them. */
export const unitRates: RateMultipliers = {
  baseNumberLife: 1,
  oxidation: 1,
  fuel: 1,
  soot: 1,
  precursor: 1,
  sludge: 1,
  chain: 1,
  phaser: 1,
};

/** The oil and the wear increments at the end of a charge (or of a part of it). */
export interface OilState {
  /** base number, mg KOH/g */
  readonly baseNumber: number;
  /** acid number, mg KOH/g */
  readonly acidNumber: number;
  /** additive left, 1 fresh .. 0 used up */
  readonly additiveShare: number;
  /** oxidation by infrared, A/cm */
  readonly oxidation: number;
  /** fuel in the oil, % by mass */
  readonly fuelPercent: number;
  /** soot, % by mass */
  readonly sootPercent: number;
  /** kinematic viscosity at 100 °C as a lab would measure it, mm²/s */
  readonly kv100: number;
  /** the same without thickening: what bearings and chain see, mm²/s */
  readonly thinKv100: number;
  /** dispersancy used, 1 = all of it */
  readonly dispersancyUsed: number;
  /** engine hours on the charge, h */
  readonly engineHours: number;
  /** fuel burned on the charge, L */
  readonly fuelLiters: number;
}

/** Wear laid down by one charge, before the sludge scale's own saturation is applied by models/wear. */
export interface WearIncrement {
  /** sludge on the 10-minus-merit scale, before the factor (1 − S/10) */
  readonly sludge: number;
  /** chain elongation without running-in, % */
  readonly chainPercent: number;
  /** phaser wear when no sludge is there, 1 = median end of life */
  readonly phaserClean: number;
  /** phaser wear added per point of sludge */
  readonly phaserPerSludge: number;
  /** mean wear multiplier of the charge against fresh clean oil */
  readonly wearMultiplier: number;
}
