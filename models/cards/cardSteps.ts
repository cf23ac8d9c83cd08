import type { CardStep, CardStepFile, StepCondition } from '../schema/jobCard.ts';
import type { ShopJob } from '../schema/shopPlan.ts';

/** What the steps of a card depend on; null = not known. */
export interface EngineAttributes {
  readonly drive: 'chain' | 'silent_chain' | 'belt' | 'wet_belt' | 'gear' | null;
  /** camshaft phasers, count */
  readonly phasers: number | null;
  readonly interference: boolean | null;
  /** cylinder banks, count */
  readonly banks: number | null;
}

const driveWords: Readonly<Record<string, string>> = {
  chain: 'a timing chain',
  silent_chain: 'a silent timing chain',
  belt: 'a dry timing belt',
  wet_belt: 'a timing belt in oil',
  gear: 'timing gears',
};

/** @returns null: does not apply; '' applies; else what is not known */
function judge(when: StepCondition, engine: EngineAttributes, jobs: readonly ShopJob[]): string | null {
  const unsure: string[] = [];
  if (when.without?.some((job) => jobs.includes(job))) return null;
  if (when.drive !== undefined) {
    if (engine.drive === null)
      unsure.push(`only with ${when.drive.map((drive) => driveWords[drive]).join(' or ')}`);
    else if (!when.drive.includes(engine.drive)) return null;
  }
  if (when.phasers !== undefined) {
    if (engine.phasers === null) unsure.push(when.phasers ? 'only with phasers' : 'only without phasers');
    else if (engine.phasers > 0 !== when.phasers) return null;
  }
  if (when.interference !== undefined) {
    if (engine.interference === null) unsure.push('whether valves and pistons can meet');
    else if (engine.interference !== when.interference) return null;
  }
  if (when.banks !== undefined) {
    if (engine.banks === null) unsure.push('only with two banks');
    else if (engine.banks < when.banks) return null;
  }
  return unsure.length === 0 ? '' : `Not known for this engine family: ${unsure.join('; ')}.`;
}

/**
 * The steps of a card in working order: those of its jobs that fit the engine; what is not known of the engine keeps a
 * step, with a word on it (common practice, no source).
 * @param jobs of the visit
 * @example with a belt drive no step speaks of a chain
 */
export function cardSteps(
  catalog: CardStepFile,
  jobs: readonly ShopJob[],
  engine: EngineAttributes,
): CardStep[] {
  const steps: CardStep[] = [];
  for (const section of catalog.sections)
    for (const entry of catalog.steps) {
      if (entry.section !== section || !entry.jobs.some((job) => jobs.includes(job))) continue;
      const verdict = entry.when === undefined ? '' : judge(entry.when, engine, jobs);
      if (verdict === null) continue;
      const { id, words, needs, value, optional, kind, source } = entry;
      const unsure = verdict === '' ? null : verdict;
      steps.push({ id, section, words, needs, value, optional, kind, source, unsure });
    }
  return steps;
}
