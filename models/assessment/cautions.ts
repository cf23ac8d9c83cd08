/** A caution and where it belongs. */
export interface Caution {
  readonly id: string;
  readonly where: readonly (
    'always' | 'pressure' | 'correlation' | 'code' | 'contamination' | 'sludge' | 'work' | 'interval'
  )[];
  readonly words: string;
}

/** Sludge index, 10 minus the merit rating, from which hard flushing is warned of; engineering judgement. */
export const heavySludgeIndex = 4;

/** What the product says where the work can hurt someone or something. */
export const cautions: readonly Caution[] = [
  {
    id: 'decision_support',
    where: ['always'],
    words:
      "Decision support: the maker's schedule, warranty terms, local rules and a licensed technician's judgement come first.",
  },
  {
    id: 'no_extension',
    where: ['interval'],
    words:
      'An interval is never lengthened past the book unless lab results and an inspection support it and a named person approves it.',
  },
  {
    id: 'pressure',
    where: ['pressure'],
    words: 'Oil-pressure warning: stop the engine and verify with a mechanical gauge.',
  },
  {
    id: 'correlation',
    where: ['correlation'],
    words: 'Correlation code or lasting rattle on an interference engine: do not keep driving to confirm.',
  },
  {
    id: 'one_code',
    where: ['code'],
    words: 'One code is not a parts order: check level, grade, pressure, wiring and sensors first.',
  },
  {
    id: 'contamination',
    where: ['contamination'],
    words:
      'Fuel above 5 %, glycol or water: find the source; a change alone hides it, and diluted oil burns more easily.',
  },
  {
    id: 'flush',
    where: ['sludge'],
    words: 'Do not flush a heavily sludged engine hard: loosened deposits can block the pickup.',
  },
  {
    id: 'work',
    where: ['work'],
    words:
      "Hot oil, moving belts, vehicle support, loaded tensioners, locking tools, one-time bolts, skin contact and used-oil disposal: follow the maker's information; torque values come from there only. Turn the engine by hand two full turns before starting it after timing work.",
  },
];

/** The words of the cautions that belong to any of the given places, each once. */
export function cautionsFor(places: readonly Caution['where'][number][]): string[] {
  return cautions
    .filter((caution) => caution.where.some((place) => places.includes(place)))
    .map((c) => c.words);
}
