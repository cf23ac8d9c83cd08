import { seededRandom } from '../numeric/random.ts';
import { normalQuantile } from '../numeric/normal.ts';
import { causeChances, type DeskSetting } from '../wear/symptomDesk.ts';
import { signsOf, type SymptomInputs } from '../wear/symptomSigns.ts';
import type { SymptomCause, SymptomTable } from '../wear/symptomTable.ts';

/** The 80 % range of a cause's chance. */
export interface ChanceRange {
  readonly low: number;
  readonly high: number;
}

const draws = 200;
const seed = 5;

/** The table as it might be, drawn once and used for every answer; always the same draws. */
export function drawnTables(table: SymptomTable): readonly SymptomTable[] {
  const random = seededRandom(seed);
  return Array.from({ length: draws }, () => jittered(table, random));
}

/**
 * How far the chances of the causes may be off, since every chance of the table is a judgement.
 * Method: each chance and prior is drawn anew with a normal error on its log-odds (catalog `spreadLogOdds`), the causes are
 * worked out again, and the tenth and ninetieth of a hundred are kept. Same inputs, same ranges.
 * @param drawn see {@link drawnTables}
 */
export function symptomRanges(
  inputs: SymptomInputs,
  setting: DeskSetting,
  drawn: readonly SymptomTable[],
): Readonly<Record<SymptomCause, ChanceRange>> {
  const { table, engine, faultCodes, coefficients } = setting;
  const signs = signsOf(inputs, engine, faultCodes, coefficients);
  const found = table.causes.map((): number[] => []);
  for (const one of drawn)
    causeChances(one, signs, setting).forEach((chance, cause) => found[cause].push(chance));
  return Object.fromEntries(
    table.causes.map(({ id }, cause) => {
      const sorted = found[cause].sort((a, b) => a - b);
      return [
        id,
        { low: sorted[Math.floor(0.1 * sorted.length)], high: sorted[Math.ceil(0.9 * sorted.length) - 1] },
      ];
    }),
  ) as Record<SymptomCause, ChanceRange>;
}

/** The table with every chance moved a little. */
function jittered(table: SymptomTable, random: () => number): SymptomTable {
  const move = (chance: number): number => {
    const error = table.spreadLogOdds * normalQuantile(Math.min(1 - 1e-9, Math.max(1e-9, random())));
    const odds = (chance / (1 - chance)) * Math.exp(error);
    return odds / (1 + odds);
  };
  return {
    ...table,
    causes: table.causes.map((cause) => ({ ...cause, prior: move(cause.prior) })),
    signs: table.signs.map((sign) => ({
      ...sign,
      chance: Object.fromEntries(
        Object.entries(sign.chance).map(([cause, chance]) => [cause, move(chance)]),
      ) as typeof sign.chance,
    })),
  };
}
