/** One part that wears: entry d of each list belongs to parameter draw d, which all units of the fleet share. */
export interface WearPart {
  /** Weibull shape, above 0 */
  readonly shape: ArrayLike<number>;
  /** Weibull scale on the wear clock, above 0; hazard terms of the unit may be folded in as scale·exp(−term/shape) */
  readonly scale: ArrayLike<number>;
  /** age of the part on the wear clock on the as-of day, 0 or more */
  readonly age: ArrayLike<number>;
  /** scale of the part that a renewal puts in; left out: as `scale` */
  readonly renewedScale?: ArrayLike<number>;
}

/** How a unit may fail, as draws from what is known. */
export type RiskDraws =
  | {
      readonly kind: 'wear';
      /** parts that fail on their own (chain, phaser); a renewal renews all */
      readonly parts: readonly WearPart[];
      /** wear-clock units a month, 0 or more, by draw */
      readonly usePerMonth: ArrayLike<number>;
    }
  | {
      readonly kind: 'monthly';
      /** by draw: chance of failing in month 1, 2, … given that the month is reached, each 0..1; the last month's goes on */
      readonly chance: readonly ArrayLike<number>[];
      /** the same after a renewal in that month; null = a renewed part is taken not to fail */
      readonly renewedChance: readonly ArrayLike<number>[] | null;
    };

/** Cumulative hazards by part and draw; months are at today's use. */
export interface Risk {
  readonly draws: number;
  readonly parts: number;
  /** cumulative hazard of the part in place from today over so many months */
  readonly hazard: (part: number, draw: number, months: number) => number;
  /** months at which the cumulative hazard reaches a value; Infinity = never */
  readonly monthsTo: (part: number, draw: number, hazard: number) => number;
  /** the same for a part new today */
  readonly renewedHazard: (part: number, draw: number, months: number) => number;
  readonly renewedMonthsTo: (part: number, draw: number, hazard: number) => number;
}

/** Swings of what is not known, 1 = as drawn; used to see what a result hangs on. */
export interface RiskScaling {
  readonly life: number;
  readonly shape: number;
}

/**
 * Prepares draws for use: wear: H(t) = ((age + use·t)/scale)^shape − (age/scale)^shape; monthly: H(m) = Σ −ln(1 − chance).
 * @param scaling multiplies scale and shape of wearing parts; for monthly chances a longer life stretches time
 * @throws RangeError when lists are empty, differ in length, or hold impossible values
 * Source: Weibull on cumulative damage; NIST/SEMATECH e-Handbook 8.1.
 */
export function riskOf(draws: RiskDraws, scaling: RiskScaling = { life: 1, shape: 1 }): Risk {
  return draws.kind === 'wear' ? wearRisk(draws, scaling) : monthlyRisk(draws, scaling);
}

function wearRisk(draws: Extract<RiskDraws, { kind: 'wear' }>, scaling: RiskScaling): Risk {
  const count = draws.usePerMonth.length;
  if (count === 0 || draws.parts.length === 0)
    throw new RangeError('risk needs at least one draw and one part');
  requireAll('usePerMonth', draws.usePerMonth, (value) => value >= 0 && value < Infinity);
  // one run of six numbers for each part and draw, so that a draw touches as little memory as can be
  const table = new Float64Array(6 * draws.parts.length * count);
  draws.parts.forEach((part, p) => {
    for (const field of ['shape', 'scale', 'age'] as const)
      if (part[field].length !== count)
        throw new RangeError(`${field} must have ${count} draws, got ${part[field].length}`);
    requireAll('shape', part.shape, (value) => value > 0 && value < Infinity);
    requireAll('scale', part.scale, (value) => value > 0 && value < Infinity);
    requireAll('age', part.age, (value) => value >= 0 && value < Infinity);
    const renewedScale = part.renewedScale ?? part.scale;
    if (renewedScale.length !== count)
      throw new RangeError(`renewedScale must have ${count} draws, got ${renewedScale.length}`);
    requireAll('renewedScale', renewedScale, (value) => value > 0 && value < Infinity);
    for (let draw = 0; draw < count; draw++) {
      const at = 6 * (p * count + draw);
      const shape = part.shape[draw]! * scaling.shape;
      const scale = part.scale[draw]! * scaling.life;
      table[at] = shape;
      table[at + 1] = part.age[draw]! / scale;
      table[at + 2] = draws.usePerMonth[draw]! / scale;
      table[at + 3] = (part.age[draw]! / scale) ** shape;
      table[at + 4] = 1 / shape;
      table[at + 5] = draws.usePerMonth[draw]! / (renewedScale[draw]! * scaling.life);
      requireAll('age ÷ scale to the power of shape', [table[at + 3]!], (value) => value < Infinity);
    }
  });
  return {
    draws: count,
    parts: draws.parts.length,
    hazard: (part, draw, months) => {
      const at = 6 * (part * count + draw);
      return (table[at + 1]! + table[at + 2]! * months) ** table[at]! - table[at + 3]!;
    },
    monthsTo: (part, draw, hazard) => {
      const at = 6 * (part * count + draw);
      const use = table[at + 2]!;
      return use === 0 ? Infinity : ((table[at + 3]! + hazard) ** table[at + 4]! - table[at + 1]!) / use;
    },
    renewedHazard: (part, draw, months) => {
      const at = 6 * (part * count + draw);
      return (table[at + 5]! * months) ** table[at]!;
    },
    renewedMonthsTo: (part, draw, hazard) => {
      const at = 6 * (part * count + draw);
      const use = table[at + 5]!;
      return use === 0 ? Infinity : hazard ** table[at + 4]! / use;
    },
  };
}

function monthlyRisk(draws: Extract<RiskDraws, { kind: 'monthly' }>, scaling: RiskScaling): Risk {
  const count = draws.chance.length;
  if (count === 0) throw new RangeError('risk needs at least one draw');
  if (draws.renewedChance && draws.renewedChance.length !== count)
    throw new RangeError(`renewedChance must have ${count} draws, got ${draws.renewedChance.length}`);
  const placed = draws.chance.map(hazardTable);
  const renewed = draws.renewedChance?.map(hazardTable) ?? null;
  const { life } = scaling;
  return {
    draws: count,
    parts: 1,
    hazard: (_, draw, months) => tableAt(placed[draw]!, months / life),
    monthsTo: (_, draw, hazard) => tableReach(placed[draw]!, hazard) * life,
    renewedHazard: (_, draw, months) => (renewed ? tableAt(renewed[draw]!, months / life) : 0),
    renewedMonthsTo: (_, draw, hazard) => (renewed ? tableReach(renewed[draw]!, hazard) * life : Infinity),
  };
}

/** Cumulative hazard at the end of month 0, 1, …; a chance of 1 counts as a very large hazard. */
function hazardTable(chance: ArrayLike<number>): Float64Array {
  if (chance.length === 0) throw new RangeError('monthly chances must hold at least one month');
  requireAll('chance', chance, (value) => value >= 0 && value <= 1);
  const table = new Float64Array(chance.length + 1);
  for (let month = 0; month < chance.length; month++)
    table[month + 1] = table[month]! + Math.min(40, -Math.log1p(-chance[month]!));
  return table;
}

function tableAt(table: Float64Array, months: number): number {
  const last = table.length - 1;
  const month = Math.min(last - 1, Math.floor(months));
  return table[month]! + (months - month) * (table[month + 1]! - table[month]!);
}

function tableReach(table: Float64Array, hazard: number): number {
  const last = table.length - 1;
  let month = 0;
  while (month < last - 1 && table[month + 1]! < hazard) month++;
  const step = table[month + 1]! - table[month]!;
  return step > 0 ? month + (hazard - table[month]!) / step : Infinity;
}

function requireAll(name: string, values: ArrayLike<number>, sound: (value: number) => boolean): void {
  for (let i = 0; i < values.length; i++)
    if (!sound(values[i]!)) throw new RangeError(`${name} is out of range in draw ${i}, got ${values[i]}`);
}

/** Cumulative hazard of all parts in place over so many months. */
export function wholeHazard(risk: Risk, draw: number, months: number): number {
  let sum = 0;
  for (let part = 0; part < risk.parts; part++) sum += risk.hazard(part, draw, months);
  return sum;
}

/** Cumulative hazard of all parts, all new, over so many months. */
export function wholeRenewedHazard(risk: Risk, draw: number, months: number): number {
  let sum = 0;
  for (let part = 0; part < risk.parts; part++) sum += risk.renewedHazard(part, draw, months);
  return sum;
}
