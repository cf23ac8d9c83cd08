import type { Call, GoverningLimit } from '../../models/schema/assessment.ts';

/** The five calls as people read them. */
export const callWords: Readonly<Record<Call, string>> = {
  stop: 'Stop and check',
  book: 'Book now',
  plan: 'Plan in',
  watch: 'Watch',
  clear: 'Clear',
};

/** The limits as people read them. */
export const limitWords: Readonly<Record<GoverningLimit, string>> = {
  base_number: 'base number',
  acid_number: 'acid number',
  additive: 'additive',
  oxidation: 'oxidation',
  soot: 'soot',
  dispersancy: 'dispersancy',
  fuel: 'fuel in oil',
  viscosity: 'viscosity',
  book: "maker's book",
  hours: 'engine hours',
  calendar: 'calendar',
};

/** A limit's words, or the plain text where it is none of them. */
export function limitName(limit: string | null): string {
  if (limit === null) return 'not known';
  return limitWords[limit as GoverningLimit] ?? limit.replaceAll('_', ' ');
}

/** Words as a sentence begins. */
export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** A duty group within a sentence; units without one are a group of their own. */
export function dutyGroup(duty: string): string {
  return duty === 'not recorded' ? 'units whose duty is not recorded' : duty;
}

/** "1 unit", "12 units". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${new Intl.NumberFormat().format(count)} ${count === 1 ? one : many}`;
}

const inferredNames: Readonly<Record<string, string>> = {
  kmPerDay: 'distance a day',
  distanceKm: 'distance',
  engineHours: 'engine hours',
  idleHours: 'idle hours',
  idleShare: 'idle share',
  ptoHours: 'power take-off hours',
  speedKmh: 'driving speed',
  tripKm: 'trip length',
  soakedStarts: 'cold starts',
  soakedStartsPerDay: 'cold starts',
  towingShare: 'towing',
  dustShare: 'dust',
  ambient: 'climate',
  ambientC: 'climate',
  fuelLiters: 'fuel burned',
  litersPer100Km: 'fuel burned',
};

/** What was inferred, in words, each once. */
export function inferredWords(names: readonly string[]): string {
  const words = names.map(
    (name) => inferredNames[name] ?? name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`),
  );
  return [...new Set(words)].join(', ');
}
