import { fold } from './headerWords.ts';

const yes =
  'true yes y 1 positive pos + x ok present detected si sim ja j oui o tak sy wahr vrai verdadero vero verdadeiro on checked ✓ ✔';
const no =
  'false no n 0 negative neg absent not_detected nd nil none nein nee non nao nie falsch faux falso off unchecked ✗ ✘';

const words = new Map<string, boolean>();
for (const word of yes.split(' ')) words.set(word, true);
for (const word of no.split(' ')) words.set(word.replace('_', ' '), false);

/** Reads yes or no in a few languages; null when the cell says neither. */
export function readFlag(cell: string): boolean | null {
  return words.get(cell) ?? words.get(fold(cell).trim()) ?? null;
}
