import { randomFrom } from './random.ts';

const letters = '0123456789ABCDEFGHJKLMNPRSTUVWXYZ';
const values: Readonly<Record<string, number>> = Object.fromEntries(
  [...'ABCDEFGH']
    .map((l, i) => [l, i + 1] as const)
    .concat([...'JKLMN'].map((l, i) => [l, i + 1] as const))
    .concat([
      ['P', 7],
      ['R', 9],
    ])
    .concat([...'STUVWXYZ'].map((l, i) => [l, i + 2] as const))
    .concat([...'0123456789'].map((l) => [l, Number(l)] as const)),
);
const weights = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

/** An invented identification number of 17 characters with a right check digit; no maker has a code that begins with 00. */
export function vinFor(seed: number, index: number): string {
  const random = randomFrom(seed, `vin ${index}`);
  const text = ['0', '0', 'Z'];
  while (text.length < 11) text.push(letters[random.integer(0, letters.length - 1)]!);
  text.push(...String(100000 + index).split(''));
  const sum = text.reduce((total, letter, place) => total + values[letter]! * weights[place]!, 0);
  text[8] = sum % 11 === 10 ? 'X' : String(sum % 11);
  return text.join('');
}
