import type { WearPoint } from './states.ts';
import type { UnitAnalysis } from './unitAnalysis.ts';

/** Caution limits that the states have passed, in words; an estimate alone is a caution, never a stop. */
export function cautionsOf(
  { context, chainLimit, timeline }: UnitAnalysis,
  now: WearPoint,
): readonly string[] {
  const c = context.coefficients;
  const words: string[] = [];
  const { sludge, chainPercent, phaserShare } = now;
  if (sludge !== null && sludge.value >= c['evidence.sludge_caution']) {
    words.push(`sludge about ${sludge.value.toFixed(1)} of 10: look at the screen and under the cover`);
    words.push('do not flush a heavily sludged engine hard: loosened deposits can block the pickup');
  }
  if (chainPercent !== null && chainLimit !== null) {
    const share = chainPercent.value / chainLimit.percent;
    if (share >= 1)
      words.push(`chain elongation about ${chainPercent.value.toFixed(2)} %, at its limit: measure`);
    else if (share >= c['evidence.chain_plan'])
      words.push(
        `chain elongation about ${chainPercent.value.toFixed(2)} % of ${chainLimit.percent} %: plan the renewal`,
      );
    if (chainPercent.value >= c['evidence.chain_skip'])
      words.push('a tooth may be skipped at this elongation');
    if (chainLimit.basis === 'assumed' && share >= c['evidence.chain_watch']) words.push(chainLimit.words);
  }
  if (phaserShare !== null && phaserShare.value >= c['evidence.phaser_caution'])
    words.push(
      `phaser wear about ${phaserShare.value.toFixed(2)} of its median life: read the phase, listen at cold start`,
    );
  if (timeline.metersDisagree)
    words.push('odometer and engine hours disagree: no interval may be lengthened');
  return words;
}
