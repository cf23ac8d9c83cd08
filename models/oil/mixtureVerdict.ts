import type { OilCatalog } from './oilFill.ts';
import type { OilVerdict } from './rightOil.ts';
import type { ViscosityGrade } from './viscosityGrade.ts';
import { gradeLimits, gradeName, parseGrade } from './viscosityGrade.ts';

/** Oil of another grade that was topped up. */
export interface OtherOil {
  readonly grade: string;
  /** L, above 0 */
  readonly liters: number;
}

/**
 * What topping up with another grade makes of the oil, against the grade that the engine asks for.
 * @param filled grade of the drain
 * @param others what was added of other grades; empty: no mixture
 * @param sumpLiters above 0
 * @param mixedKv100 fresh viscosity of the mixture at 100 °C, mm²/s, from `mixedFill`
 * @param asked grades that the engine asks for; empty: held against the grade of the drain
 * @returns 1 L of 10W-40 on 5 L of 5W-30 → differs, within 5W-30; null without a mixture
 * Source: SAE J300 ranges; that the stiffer winter grade counts in the cold is common practice, no source.
 */
export function mixtureVerdict(
  filled: ViscosityGrade,
  others: readonly OtherOil[],
  sumpLiters: number,
  mixedKv100: number,
  asked: readonly ViscosityGrade[],
  { grades }: OilCatalog,
): OilVerdict | null {
  if (others.length === 0) return null;
  const liters = new Map<string, number>();
  for (const { grade, liters: added } of others) liters.set(grade, (liters.get(grade) ?? 0) + added);
  const one = (value: number): string => String(Math.round(value * 10) / 10);
  const added = [...liters].map(([grade, sum]) => `${one(sum)} L of ${grade}`).join(' and ');
  const wanted = asked.length === 0 ? [filled] : asked;
  const ranges = wanted.map((grade) => gradeLimits(grade, grades));
  const within = ranges.some(
    ({ kv100Min, kv100Below }) => mixedKv100 >= kv100Min && (kv100Below === null || mixedKv100 < kv100Below),
  );
  const thin = ranges.every(({ kv100Min }) => mixedKv100 < kv100Min);
  const names = wanted.map(gradeName).join(' or ');
  const winters = others.flatMap(({ grade }) => parseGrade(grade, grades)?.winter ?? []);
  const stiffest = Math.max(...winters);
  const cold =
    winters.length > 0 && filled.winter !== null && stiffest > filled.winter
      ? `; in the cold count on ${stiffest}W at best`
      : '';
  const where = within ? `within ${names}` : `${thin ? 'thinner' : 'thicker'} than ${names}`;
  return {
    topic: 'mixture',
    verdict: within ? 'differs' : 'wrong',
    words: `${added} topped up on ${one(sumpLiters)} L of ${gradeName(filled)}: together about ${mixedKv100.toFixed(1)} mm²/s at 100 °C, ${where}${cold}.`,
  };
}
