/**
 * The viscosity–temperature line of ASTM D341: log10 log10 Z = A − B·log10 T.
 * The numbers below are defined by the method, not adjustable. Source: ASTM D341, as quoted in published extracts.
 */
const kelvin = 273.15;

/** An oil's line: A and B of the method, and the zero that its temperatures were counted from. */
export interface ViscosityLine {
  readonly a: number;
  readonly b: number;
  /** 273.15; worked examples that count 273 give a slightly other line */
  readonly kelvinOffset: number;
}

function requireViscosity(name: string, value: number): void {
  if (!(value > 0.2 && value < Infinity)) throw new Error(`${name} must be above 0.2 mm²/s, got ${value}`);
}

/**
 * Z of a viscosity: v + 0.7 + exp(−1.47 − 1.84 v − 0.51 v²). The last term matters below 2 mm²/s only.
 * @param viscosity v, mm²/s, above 0.2
 * @returns Z; 5.4 → 6.1000
 */
export function zOfViscosity(viscosity: number): number {
  requireViscosity('viscosity', viscosity);
  return viscosity + 0.7 + Math.exp(-1.47 - 1.84 * viscosity - 0.51 * viscosity * viscosity);
}

/**
 * The viscosity of a Z: (Z − 0.7) − exp(−0.7487 − 3.295 (Z−0.7) + 0.6119 (Z−0.7)² − 0.3193 (Z−0.7)³).
 * @param z above 1
 * @returns mm²/s; 6.1 → 5.4
 */
export function viscosityOfZ(z: number): number {
  if (!(z > 1)) throw new Error(`z must be above 1, got ${z}`);
  const x = z - 0.7;
  return x - Math.exp(-0.7487 - 3.295 * x + 0.6119 * x * x - 0.3193 * x * x * x);
}

/**
 * The line through two measured points: B = (W1 − W2) / (log10 T2 − log10 T1), A = W1 + B·log10 T1, W = log10 log10 Z.
 * @param firstC temperature, °C
 * @param first viscosity there, mm²/s
 * @param secondC another temperature, °C
 * @param second viscosity there, mm²/s
 * @param kelvinOffset 273.15 unless an example counts otherwise
 * @returns the line; 32 at 40 °C and 5.4 at 100 °C → A 9.53082, B 3.74658
 * Throws when the temperatures are the same or the colder oil is not the thicker one.
 */
export function viscosityLine(
  firstC: number,
  first: number,
  secondC: number,
  second: number,
  kelvinOffset = kelvin,
): ViscosityLine {
  if (firstC === secondC) throw new Error(`secondC must differ from firstC, got ${secondC}`);
  if ((secondC - firstC) * (second - first) >= 0)
    throw new Error(
      `viscosity must fall with temperature, got ${first} at ${firstC} °C and ${second} at ${secondC} °C`,
    );
  const w = (viscosity: number) => Math.log10(Math.log10(zOfViscosity(viscosity)));
  const t1 = Math.log10(firstC + kelvinOffset);
  const b = (w(first) - w(second)) / (Math.log10(secondC + kelvinOffset) - t1);
  return { a: w(first) + b * t1, b, kelvinOffset };
}

/**
 * Viscosity of an oil at a temperature. Not for multigrades below about 0 °C, where the cranking simulator counts.
 * @param line from {@link viscosityLine}
 * @param temperatureC °C
 * @returns mm²/s; 61.7/10.2 oil at 130 °C → 5.824
 */
export function viscosityAt(line: ViscosityLine, temperatureC: number): number {
  return viscosityOfZ(10 ** (10 ** (line.a - line.b * Math.log10(temperatureC + line.kelvinOffset))));
}

/** The temperature (°C) at which an oil has a viscosity (mm²/s); the inverse of {@link viscosityAt}. */
export function temperatureOfViscosity(line: ViscosityLine, viscosity: number): number {
  const w = Math.log10(Math.log10(zOfViscosity(viscosity)));
  return 10 ** ((line.a - w) / line.b) - line.kelvinOffset;
}
