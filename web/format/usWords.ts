import { kmPerMile, kpaPerPsi, litersPerQuart, plain } from './measures.ts';

const litersPerGallon = 4 * litersPerQuart;
const number = String.raw`[-−]?(?:\d{1,3}(?:[ \u00a0\u202f]\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?)`;
/** One amount or two that share their unit: "2.4 km", "1900 to 2300 km". */
const amounts = (unit: string, before = ''): RegExp =>
  new RegExp(String.raw`(?<![\d.,]${before})(?:(${number})( to | or | and |–))?(${number}) ${unit}`, 'g');

const speeds = amounts(String.raw`km/h(?!\w)`);
const distances = amounts(String.raw`km(?![\w²/])`, '|per ');
const rates = amounts(String.raw`L(?: per |/)1[ \u00a0\u202f]?000 km`);
const liters = amounts(String.raw`L(?![\w/])`);
const pressures = amounts('kPa');
const fuel = new RegExp(String.raw`(?<=\bfuel,? )(${number}) L(?![\w/])`, 'g');
/** Temperatures; those at which a laboratory measures viscosity are part of its name. */
const degrees = amounts('°C', String.raw`|(?:viscosity|mm²/s|mPa·s|that) at (?:\d+ )?`);

/** A number with as many digits as it had, `least` of them; none beyond the point from 100 on. */
function told(text: string, value: number, least: number): string {
  const bare = text
    .replace(/[- \u00a0\u202f−]/g, '')
    .replace('.', '')
    .replace(/^0+/, '');
  const digits = Math.max(least, text.includes('.') ? bare.length : bare.replace(/0+$/, '').length);
  const kept = Number(value.toPrecision(Math.min(digits, 15)));
  return plain(kept, kept >= 100 || Number.isInteger(kept) ? 0 : kept < 1 ? 2 : 1);
}

const valueOf = (text: string): number => Number(text.replace(/[ \u00a0\u202f]/g, '').replace('−', '-'));

type Change = (text: string) => string;
/** Every amount of a pattern anew, with the unit after it. */
function change(words: string, pattern: RegExp, anew: Change, unit: string): string {
  return words.replace(pattern, (_all, from: string | undefined, joint: string | undefined, to: string) =>
    from === undefined ? `${anew(to)} ${unit}` : `${anew(from)}${joint}${anew(to)} ${unit}`,
  );
}

const times =
  (factor: number): Change =>
  (text) =>
    told(text, valueOf(text) * factor, 2);
const fahrenheit: Change = (text) => plain(Math.round((valueOf(text) * 9) / 5 + 32));

/**
 * A sentence in metric measures in those of a reader of miles, quarts, psi and °F: distances, speeds, volumes of oil (fuel in
 * gallons), oil used by distance, temperatures, pressures. Rates of a laboratory per 1000 km stay, and so do the temperatures that
 * name a viscosity.
 */
export function usWords(words: string): string {
  let anew = words.replace(fuel, (_all, text: string) => `${times(1 / litersPerGallon)(text)} gal`);
  anew = change(anew, rates, times(kmPerMile / litersPerQuart), `qt per ${plain(1000)} mi`);
  anew = change(anew, liters, times(1 / litersPerQuart), 'qt');
  anew = change(anew, pressures, times(1 / kpaPerPsi), 'psi');
  anew = change(anew, speeds, times(1 / kmPerMile), 'mph');
  anew = change(anew, distances, times(1 / kmPerMile), 'mi');
  return change(anew, degrees, fahrenheit, '°F');
}
