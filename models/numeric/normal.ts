/**
 * Standard normal distribution function to about 1e-15 (Hart's rational approximation as given by West, "Better
 * approximations to cumulative normal functions", Wilmott, 2005).
 * @param z standard normal deviate, any number; ±Infinity gives 1 and 0
 * @returns probability 0..1; normalCdf(1.2815515655446004) → 0.9
 */
export function normalCdf(z: number): number {
  const size = Math.abs(z);
  if (size > 37) return z > 0 ? 1 : 0;
  const density = Math.exp((-size * size) / 2);
  let tail: number;
  if (size < 7.07106781186547) {
    let above = 3.52624965998911e-2 * size + 0.700383064443688;
    above = above * size + 6.37396220353165;
    above = above * size + 33.912866078383;
    above = above * size + 112.079291497871;
    above = above * size + 221.213596169931;
    above = above * size + 220.206867912376;
    let below = 8.83883476483184e-2 * size + 1.75566716318264;
    below = below * size + 16.064177579207;
    below = below * size + 86.7807322029461;
    below = below * size + 296.564248779674;
    below = below * size + 637.333633378831;
    below = below * size + 793.826512519948;
    below = below * size + 440.413735824752;
    tail = (density * above) / below;
  } else {
    let fraction = size;
    for (let term = 20; term >= 1; term--) fraction = size + term / fraction;
    tail = density / fraction / Math.sqrt(2 * Math.PI);
  }
  return z > 0 ? 1 - tail : tail;
}

const central = [
  [
    3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
    45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727,
  ],
  [
    1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867,
    39307.89580009271061, 28729.085735721942674, 5226.495278852545925,
  ],
] as const;
const near = [
  [
    1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504,
    1.27045825245236838258, 0.24178072517745061177, 0.0227238449892691845833, 7.7454501427834140764e-4,
  ],
  [
    1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455, 0.14810397642748007459,
    0.0151986665636164571966, 5.475938084995344946e-4, 1.05075007164441684324e-9,
  ],
] as const;
const far = [
  [
    6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123,
    0.026532189526576123093, 0.0012426609473880784386, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
  ],
  [
    1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525, 7.868691311456132591e-4,
    1.8463183175100546818e-5, 1.4215117583164458887e-7, 2.04426310338993978564e-15,
  ],
] as const;

/**
 * Standard normal quantile, the inverse of {@link normalCdf} (Wichura, algorithm AS 241, Applied Statistics 37, 1988).
 * @param probability strictly between 0 and 1
 * @returns standard normal deviate; normalQuantile(0.9) → 1.2815515655446004
 * @throws RangeError outside (0, 1)
 */
export function normalQuantile(probability: number): number {
  if (!(probability > 0 && probability < 1))
    throw new RangeError(`probability must lie between 0 and 1, got ${probability}`);
  const fromMiddle = probability - 0.5;
  if (Math.abs(fromMiddle) <= 0.425) {
    const x = 0.180625 - fromMiddle * fromMiddle;
    return fromMiddle * (polynomial(central[0], x) / polynomial(central[1], x));
  }
  const x = Math.sqrt(-Math.log(fromMiddle < 0 ? probability : 1 - probability));
  const size =
    x <= 5
      ? polynomial(near[0], x - 1.6) / polynomial(near[1], x - 1.6)
      : polynomial(far[0], x - 5) / polynomial(far[1], x - 5);
  return fromMiddle < 0 ? -size : size;
}

function polynomial(terms: readonly number[], x: number): number {
  let sum = 0;
  for (let power = terms.length - 1; power >= 0; power--) sum = sum * x + terms[power]!;
  return sum;
}

/** Density of the standard normal distribution; 0 → 0.3989. */
export function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}

/** Standard deviations from the middle to either end of an 80 % range. */
export const rangeDeviations = 1.2815515655446004;
