import type { Random } from './random.ts';

/** True multipliers on the simulated physics; 1 = as the laws have it. */
export interface TrueRates {
  readonly base: number;
  readonly oxidation: number;
  readonly fuel: number;
  readonly soot: number;
  readonly load: number;
  readonly sludge: number;
  readonly chain: number;
  readonly phaser: number;
  readonly belt: number;
}

const names = ['base', 'oxidation', 'fuel', 'soot', 'load', 'sludge', 'chain', 'phaser', 'belt'] as const;

/** Every multiplier drawn log-normal with the given spread. */
export function drawRates(random: Random, logSd: number): TrueRates {
  const rates: Record<string, number> = {};
  for (const name of names) rates[name] = random.logNormal(logSd);
  return rates as unknown as TrueRates;
}

/** Fleet × family × unit. */
export function multiplyRates(parts: readonly TrueRates[]): TrueRates {
  const product: Record<string, number> = {};
  for (const name of names) product[name] = parts.reduce((value, part) => value * part[name], 1);
  return product as unknown as TrueRates;
}

/** How the laws are curved. Each variant is a different world that the models were not made from. */
export interface Laws {
  /** sludge per hour at one unit of overload, and how sharply it begins */
  readonly sludgeRate: number;
  readonly sludgeKnee: number;
  readonly sludgeWidth: number;
  readonly sludgePower: number;
  /** how soot, fuel and spent additive speed chain wear */
  readonly sootWear: number;
  readonly sootPower: number;
  readonly fuelWear: number;
  readonly additiveWear: number;
  readonly thinWear: number;
  /** phaser wear per point of sludge: in the exponent, or linear */
  readonly phaserSludge: number;
  readonly phaserExponential: boolean;
  /** steepness of the hazards in the wear state */
  readonly chainHazardPower: number;
  readonly phaserHazardPower: number;
}

/** Three worlds: a soft threshold, a late and steep one, and one where age of the oil counts for little. */
export const lawVariants = {
  soft: {
    sludgeRate: 0.0019,
    sludgeKnee: 1.05,
    sludgeWidth: 0.18,
    sludgePower: 1.2,
    sootWear: 0.9,
    sootPower: 1.2,
    fuelWear: 0.5,
    additiveWear: 0.7,
    thinWear: 1.2,
    phaserSludge: 0.22,
    phaserExponential: true,
    chainHazardPower: 5,
    phaserHazardPower: 1.6,
  },
  steep: {
    sludgeRate: 0.0015,
    sludgeKnee: 1.25,
    sludgeWidth: 0.08,
    sludgePower: 1.6,
    sootWear: 0.7,
    sootPower: 1.8,
    fuelWear: 0.8,
    additiveWear: 1,
    thinWear: 0.8,
    phaserSludge: 0.45,
    phaserExponential: false,
    chainHazardPower: 7,
    phaserHazardPower: 2.4,
  },
  gradual: {
    sludgeRate: 0.0011,
    sludgeKnee: 0.75,
    sludgeWidth: 0.3,
    sludgePower: 1,
    sootWear: 0.5,
    sootPower: 1,
    fuelWear: 0.3,
    additiveWear: 0.4,
    thinWear: 0.6,
    phaserSludge: 0.3,
    phaserExponential: false,
    chainHazardPower: 3,
    phaserHazardPower: 1,
  },
} as const satisfies Record<string, Laws>;
export type LawVariant = keyof typeof lawVariants;
