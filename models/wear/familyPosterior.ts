import type { Coefficients } from '../schema/coefficient.ts';
import type { UnitHistory } from '../schema/history.ts';
import { factorInPlace, inverseOf, inverseOfFactor, solveInPlace } from '../numeric/cholesky.ts';
import { latent, spreadOfRate, taughtCount, taughtSpread } from './latents.ts';
import type { RatePrior, SpreadScales } from './latents.ts';
import type { Level } from './lifeLevels.ts';
import type { UnitAnalysis } from './unitAnalysis.ts';

/** What evidence says of a vector of log-rates: precision and precision times mean. */
interface Message {
  readonly precision: Float64Array;
  readonly shift: Float64Array;
}

/** What the units told of their families and the fleet. */
export interface FamilyMessages {
  /** by the unit's record id */
  readonly byUnit: ReadonlyMap<number, Message>;
  /** what is believed of the mean of each family, from its own units and, through the fleet, from the others */
  readonly byFamily: ReadonlyMap<string, Message>;
  /** what is believed of a family without evidence */
  readonly otherFamily: Message;
}

const size = taughtCount;

function emptyMessage(): Message {
  return { precision: new Float64Array(size * size), shift: new Float64Array(size) };
}

function addTo(sum: Message, part: Message, sign = 1): void {
  for (let i = 0; i < size * size; i++) sum.precision[i] += sign * part.precision[i];
  for (let i = 0; i < size; i++) sum.shift[i] += sign * part.shift[i];
}

/** A message about z passed on to the mean of z, when z scatters about it with the given variances. */
function passOn(message: Message, variances: Float64Array): Message {
  const inner = message.precision.slice();
  for (let i = 0; i < size; i++) inner[i * size + i] += 1 / variances[i];
  const passed = emptyMessage();
  if (!factorInPlace(inner, size)) return passed;
  const column = new Float64Array(size);
  for (let j = 0; j < size; j++) {
    for (let i = 0; i < size; i++) column[i] = message.precision[i * size + j];
    solveInPlace(inner, size, column);
    for (let i = 0; i < size; i++) passed.precision[i * size + j] = column[i] / variances[i];
  }
  const shift = message.shift.slice();
  solveInPlace(inner, size, shift);
  for (let i = 0; i < size; i++) passed.shift[i] = shift[i] / variances[i];
  for (let i = 0; i < size; i++)
    for (let j = 0; j < i; j++) {
      const mean = (passed.precision[i * size + j] + passed.precision[j * size + i]) / 2;
      passed.precision[i * size + j] = mean;
      passed.precision[j * size + i] = mean;
    }
  return passed;
}

/** What one unit's own evidence says of its rates, with its other unknowns integrated out. */
function ownMessage({ prior, posterior }: UnitAnalysis): Message {
  const active = posterior.active.filter((index) => index < size);
  const places = active.map((index) => posterior.active.indexOf(index));
  const count = active.length;
  const block = (covariance: Float64Array): Float64Array => {
    const part = new Float64Array(count * count);
    const full = posterior.active.length;
    places.forEach((row, i) =>
      places.forEach((column, j) => (part[i * count + j] = covariance[row * full + column])),
    );
    return inverseOf(part, count);
  };
  const after = block(posterior.covariance);
  const before = block(prior.covariance);
  const message = emptyMessage();
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) {
      const at = i * count + j;
      message.precision[active[i] * size + active[j]] = after[at] - before[at];
      message.shift[active[i]] += after[at] * posterior.mode[active[j]] - before[at] * prior.mean[active[j]];
    }
  return message;
}

/** Variances of a unit's unknowns about its family's: unit spread, doubt about exposure, what the model leaves out. */
export function unitVariances(
  { prior, family, posterior }: UnitAnalysis,
  unitSd: Float64Array,
): Float64Array {
  const variances = unitSd.map((sd) => sd * sd);
  posterior.active.forEach((index, place) => {
    if (index >= size) return;
    const total = prior.covariance[place * posterior.active.length + place];
    variances[index] += Math.max(0, total - family.sd[index] * family.sd[index]);
  });
  return variances;
}

/**
 * What every unit's evidence says of its family and, through the families, of the fleet.
 * Method: normal hierarchy unit – family – fleet – catalog, messages passed up and back (empirical Bayes).
 */
export function familyMessages(
  analyses: readonly UnitAnalysis[],
  coefficients: Coefficients,
): FamilyMessages {
  const spreads = taughtSpread(coefficients);
  const familyVariance = spreads.family.map((sd) => sd * sd);
  const byUnit = new Map<number, Message>();
  const told = new Map<string, Message>();
  for (const analysis of analyses) {
    const passed = passOn(ownMessage(analysis), unitVariances(analysis, spreads.unit));
    byUnit.set(analysis.history.unit.source.id, passed);
    const family = analysis.history.engine?.engineFamily ?? '';
    const sum = told.get(family) ?? emptyMessage();
    addTo(sum, passed);
    told.set(family, sum);
  }
  const fleet = emptyMessage();
  for (let i = 0; i < size; i++) fleet.precision[i * size + i] = 1 / (spreads.fleet[i] * spreads.fleet[i]);
  const toFleet = new Map([...told].map(([family, message]) => [family, passOn(message, familyVariance)]));
  for (const message of toFleet.values()) addTo(fleet, message);
  const byFamily = new Map<string, Message>();
  for (const [family, message] of told) {
    const others = emptyMessage();
    addTo(others, fleet);
    addTo(others, toFleet.get(family)!, -1);
    const own = spreadOut(others, familyVariance);
    addTo(own, message);
    byFamily.set(family, own);
  }
  return { byUnit, byFamily, otherFamily: spreadOut(fleet, familyVariance) };
}

/** What is known of a mean, as knowledge of one that scatters about it. */
function spreadOut(message: Message, variances: Float64Array): Message {
  const covariance = inverseOf(message.precision, size);
  const mean = new Float64Array(size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++) mean[i] += covariance[i * size + j] * message.shift[j];
  for (let i = 0; i < size; i++) covariance[i * size + i] += variances[i];
  const out = { precision: inverseOf(covariance, size), shift: new Float64Array(size) };
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++) out.shift[i] += out.precision[i * size + j] * mean[j];
  return out;
}

/**
 * What the fleet's evidence says of the unknowns of a unit, without the unit's own evidence.
 * @param phaser what lives tell of the phaser's rate in its family; null: nothing
 * @returns mean, total sd and covariance of a unit's taught unknowns
 */
export function looPriorOf(
  messages: FamilyMessages,
  history: UnitHistory,
  spread: SpreadScales,
  coefficients: Coefficients,
  phaser: Level | null = null,
): RatePrior {
  const family = messages.byFamily.get(history.engine?.engineFamily ?? '') ?? messages.otherFamily;
  const self = messages.byUnit.get(history.unit.source.id);
  const left = { precision: family.precision.slice(), shift: family.shift.slice() };
  if (self !== undefined) addTo(left, self, -1);
  const factor = left.precision.slice();
  if (!factorInPlace(factor, size)) {
    // rounding at the edge of the definite: the family's belief as it stands
    left.shift.set(family.shift);
    factor.set(family.precision);
    factorInPlace(factor, size);
  }
  const covariance = inverseOfFactor(factor, size);
  const mean = left.shift;
  solveInPlace(factor, size, mean);
  if (phaser !== null) {
    mean[latent.phaser] = phaser.mean;
    for (let i = 0; i < size; i++) {
      covariance[latent.phaser * size + i] = 0;
      covariance[i * size + latent.phaser] = 0;
    }
    covariance[latent.phaser * size + latent.phaser] = phaser.variance;
  }
  const { unit } = taughtSpread(coefficients);
  const sd = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    covariance[i * size + i] += (spreadOfRate(i, spread) * unit[i]) ** 2;
    sd[i] = Math.sqrt(covariance[i * size + i]);
  }
  return { mean, sd, covariance, spread };
}
