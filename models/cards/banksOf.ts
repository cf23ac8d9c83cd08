import type { UnitHistory } from '../schema/history.ts';

/** Correlation and camshaft position codes that name bank 2 (SAE J2012). */
const secondBank = /^P00(18|19|20|21|22|23|24|25|28|41|50|52|53|82|83|84|85)/i;

/**
 * Cylinder banks of a unit's engine as far as its records tell: a second bank that was ever named, or more phasers than
 * one bank can carry (two camshafts; common practice, no source).
 * @returns 2, or null for not known
 * @example four phasers → 2
 */
export function banksOf(
  history: Pick<UnitHistory, 'engine' | 'findings' | 'services' | 'codes'>,
): number | null {
  const named = (bank: string | null): boolean => bank === '2' || bank === 'both';
  const seen =
    history.findings.some(({ bank }) => named(bank)) ||
    history.services.some(({ bank, read }) => named(bank) || named(read.bank)) ||
    history.codes.some(({ code }) => secondBank.test(code));
  return seen || (history.engine?.phasers ?? 0) > 2 ? 2 : null;
}
