import type { Coefficients } from '../schema/coefficient.ts';
import type { UnitHistory } from '../schema/history.ts';
import { factorInPlace, inverseOf, inverseOfFactor, solveInPlace } from './cholesky.ts';
import { spreadOfRate, taughtCount, taughtSpread } from './latents.ts';
import type { RatePrior, SpreadScales } from './latents.ts';
import type { UnitAnalysis } from './unitAnalysis.ts';

/** What evidence says of a vector of log-rates: precision and precision times mean. */
interface Message {
  readonly precision: Float64Array;
  readonly shift: Float64Array;
}

/** What the units told of their families and the fleet. */
export interface FamilyMessages {
  readonly byUnit: ReadonlyMap<number, Message>;
  readonly byFamily: ReadonlyMap<string, Message>;
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
function unitVariances({ prior, family, posterior }: UnitAnalysis, unitSd: Float64Array): Float64Array {
  const variances = unitSd.map((sd) => sd * sd);
  posterior.active.forEach((index, place) => {
    if (index >= size) return;
    const total = prior.covariance[place * posterior.active.length + place];
    variances[index] += Math.max(0, total - family.sd[index] * family.sd[index]);
  });
  return variances;
}

/** Collects what every unit's evidence says of its family. */
export function familyMessages(
  analyses: readonly UnitAnalysis[],
  coefficients: Coefficients,
): FamilyMessages {
  const { unit } = taughtSpread(coefficients);
  const byUnit = new Map<number, Message>();
  const byFamily = new Map<string, Message>();
  for (const analysis of analyses) {
    const passed = passOn(ownMessage(analysis), unitVariances(analysis, unit));
    byUnit.set(analysis.history.unit.source.id, passed);
    const family = analysis.history.engine?.engineFamily ?? '';
    const sum = byFamily.get(family) ?? emptyMessage();
    addTo(sum, passed);
    byFamily.set(family, sum);
  }
  return { byUnit, byFamily };
}

/**
 * What the fleet's evidence says of the rates of a unit's family, without the unit's own evidence.
 * Method: normal hierarchy unit – family – fleet – catalog, messages passed up and back (empirical Bayes).
 * @returns mean and total sd of a unit's log-rates
 */
export function looPriorOf(
  messages: FamilyMessages,
  history: UnitHistory,
  spread: SpreadScales,
  coefficients: Coefficients,
): RatePrior {
  const spreads = taughtSpread(coefficients);
  const familyVariance = spreads.family.map((sd) => sd * sd);
  const family = history.engine?.engineFamily ?? '';
  const fleet = emptyMessage();
  for (let i = 0; i < size; i++) fleet.precision[i * size + i] = 1 / (spreads.fleet[i] * spreads.fleet[i]);
  for (const [name, message] of messages.byFamily)
    if (name !== family) addTo(fleet, passOn(message, familyVariance));
  const fleetCovariance = inverseOf(fleet.precision, size);
  const priorCovariance = fleetCovariance.slice();
  for (let i = 0; i < size; i++) priorCovariance[i * size + i] += familyVariance[i];
  const fleetMean = new Float64Array(size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++) fleetMean[i] += fleetCovariance[i * size + j] * fleet.shift[j];
  const own = emptyMessage();
  own.precision.set(inverseOf(priorCovariance, size));
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++) own.shift[i] += own.precision[i * size + j] * fleetMean[j];
  const told = messages.byFamily.get(family);
  if (told !== undefined) addTo(own, told);
  const self = messages.byUnit.get(history.unit.source.id);
  if (self !== undefined) addTo(own, self, -1);
  const factor = own.precision.slice();
  if (!factorInPlace(factor, size))
    throw new Error('family precision must be positive definite, got one that is not');
  const covariance = inverseOfFactor(factor, size);
  const mean = own.shift.slice();
  solveInPlace(factor, size, mean);
  const sd = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    covariance[i * size + i] += (spreadOfRate(i, spread) * spreads.unit[i]) ** 2;
    sd[i] = Math.sqrt(covariance[i * size + i]);
  }
  return { mean, sd, covariance, spread };
}
