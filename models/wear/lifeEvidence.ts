import type { Coefficients } from '../schema/coefficient.ts';
import type { SeenCode } from './codeEvidence.ts';
import type { Evidence } from './evidence.ts';
import { chainOf, phaserOf } from './evidenceSetting.ts';
import type { EvidenceSetting } from './evidenceSetting.ts';
import type { Renewal } from './states.ts';

/** A part in the engine from a renewal (or from new) to the next renewal or the as-of day. */
interface Stay {
  readonly endDay: number;
  /** the renewal that ended it; null: still in */
  readonly ended: Renewal | null;
}

function staysOf(
  renewals: readonly Renewal[],
  parts: readonly Renewal['part'][],
  asOfDay: number,
): readonly Stay[] {
  const stays: Stay[] = renewals
    .filter((renewal) => parts.includes(renewal.part))
    .map((ended) => ({ endDay: ended.day, ended }));
  return [...stays, { endDay: asOfDay, ended: null }];
}

/**
 * What failures and lives tell of chain and phaser: a part that failed had come near its end; one that is still in or was
 * renewed as planned had not, as far as a failure would be on record. Both together are balanced, so a phaser's lives may
 * teach the level of a family, since its wear is counted in median lives. At which elongation a family's chains fail is
 * not known well enough for that. A phaser renewed on a code of its own, though called planned, counts in part as failed:
 * shops pull the worn ones.
 * @param recorded chance that a failure would be on record, 0..1; at 0 the lack of one says nothing
 * @param codes codes of the unit, for renewals that answered one
 */
export function lifeEvidence(
  renewals: readonly Renewal[],
  asOfDay: number,
  recorded: number,
  codes: readonly SeenCode[],
  setting: EvidenceSetting,
): readonly Evidence[] {
  const c = setting.coefficients;
  const found: Evidence[] = [];
  const add = (state: 'chain' | 'phaser', stay: Stay, median: number, shape: number, other: number): void => {
    const segment = setting.segmentAt(stay.endDay);
    if (segment < 0) return;
    const failed = stay.ended?.failureChance ?? 0;
    if (failed < 0.5 && recorded <= 0) return;
    const onSign =
      state === 'phaser' && stay.ended !== null && answersCode(stay.endDay, codes, c)
        ? c['evidence.failure_on_code']
        : 0;
    const bank = stay.ended?.bank ?? null;
    const expect: Evidence['expect'] = (states) =>
      state === 'chain' ? chainOf(states, segment, bank) : phaserOf(states, segment, bank);
    found.push({
      day: stay.endDay,
      segment,
      state,
      words: wordsOf(state, stay, failed),
      observed: null,
      recordId: stay.ended?.recordId ?? null,
      bank,
      teaches: state === 'phaser' && recorded > 0 ? 'life' : 'unit',
      likelihood: { kind: 'life', median, shape, failed: Math.max(failed, onSign) * (1 - other), recorded },
      expect,
    });
  };
  if (setting.chainLimit !== null) {
    const median = setting.chainLimit.percent * c['evidence.failure_chain_share'];
    for (const stay of staysOf(renewals, ['timing_set', 'engine'], asOfDay))
      add('chain', stay, median, c['wear.chain_shape'], c['evidence.failure_other_chain']);
  }
  if (setting.hasPhaser)
    for (const stay of staysOf(renewals, ['timing_set', 'phaser', 'engine'], asOfDay)) {
      const own = stay.ended?.part === 'phaser';
      const other = c[own ? 'evidence.failure_other_phaser' : 'evidence.failure_other_chain'];
      add('phaser', stay, 1, c['wear.phaser_shape'], other);
    }
  return found;
}

/** Whether a phaser code stood shortly before a renewal. */
function answersCode(day: number, codes: readonly SeenCode[], c: Coefficients): boolean {
  return codes.some(
    (code) =>
      code.entry.group === 'phaser' &&
      day - code.day >= 0 &&
      day - code.day <= c['evidence.failure_odds_days'],
  );
}

function wordsOf(state: string, { ended }: Stay, failed: number): string {
  if (ended === null) return `no failure of the ${state} on record`;
  const part = ended.part.replace('_', ' ');
  if (failed >= 0.5) return `${part} renewed as failed`;
  return failed > 0 ? `${part} renewed, outcome not recorded` : `${part} renewed as planned`;
}
