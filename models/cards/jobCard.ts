import { cautionsFor, heavySludgeIndex, type Caution } from '../assessment/cautions.ts';
import type { UnitAssessment } from '../schema/assessment.ts';
import type { Engine } from '../schema/engine.ts';
import type { CardStepFile, JobCard } from '../schema/jobCard.ts';
import type { WorkKind } from '../schema/service.ts';
import { shopJobs, type ShopJob } from '../schema/shopPlan.ts';
import type { Stock } from '../schema/shopResources.ts';
import type { Unit } from '../schema/unit.ts';
import { cardFindings } from './cardFindings.ts';
import { cardItems, cardTools, opensTiming } from './cardItems.ts';
import { cardSteps, type EngineAttributes } from './cardSteps.ts';

/** What a card is made from. */
export interface CardInputs {
  readonly unit: Pick<Unit, 'unitNumber' | 'description' | 'site'>;
  readonly engine: Engine | null;
  /** cylinder banks, count; null = not known */
  readonly banks: number | null;
  readonly jobs: readonly ShopJob[];
  /** ISO date */
  readonly asOf: string;
  readonly judged: Pick<UnitAssessment, 'call' | 'odometerKm' | 'sludge'> | null;
  /** stock records of the site where the work is done */
  readonly stock: readonly Stock[];
  readonly plannedHours: number | null;
}

/** Jobs in the words of the shop. */
export const jobWords: Readonly<Record<ShopJob, string>> = {
  oil_change: 'oil and filter',
  screen_look: 'look at the screens',
  cover_view: 'view under the cover',
  phase_reading: 'phase reading',
  sample: 'oil sample',
  timing_set: 'timing drive renewal',
  phaser: 'phaser renewal',
  oil_control_solenoid: 'control solenoid renewal',
  check: 'check',
};

const driveNames = {
  chain: 'timing chain',
  silent_chain: 'silent timing chain',
  belt: 'dry timing belt',
  wet_belt: 'timing belt in oil',
  gear: 'timing gears',
} as const;

function cautionPlaces({ jobs, judged }: CardInputs): Caution['where'][number][] {
  const places: Caution['where'][number][] = ['work'];
  if (judged?.call === 'stop') places.push('pressure', 'correlation');
  if (jobs.includes('oil_change') || jobs.includes('sample')) places.push('contamination');
  if (jobs.includes('check') || opensTiming(jobs)) places.push('code', 'pressure');
  if ((judged?.sludge?.high ?? 0) >= heavySludgeIndex) places.push('sludge');
  return [...places, 'always'];
}

function renewable(jobs: readonly ShopJob[], engine: EngineAttributes): WorkKind[] {
  const belt = engine.drive === 'belt' || engine.drive === 'wet_belt';
  const list: WorkKind[] = [];
  if (jobs.includes('timing_set')) list.push(belt ? 'belt' : 'timing_set');
  if (jobs.includes('phaser')) list.push('phaser');
  if (jobs.includes('oil_control_solenoid') || jobs.includes('phaser')) list.push('oil_control_solenoid');
  if (jobs.includes('screen_look')) list.push('screen_cleaned', 'oil_control_solenoid');
  if (opensTiming(jobs)) list.push('tensioner_guides', 'cam_sensor', 'crank_sensor', 'ventilation_valve');
  if (jobs.includes('check')) list.push('ventilation_valve', 'thermostat', 'cam_sensor', 'crank_sensor');
  return [...new Set(list)];
}

/**
 * The job card of one visit: cautions first, what lies ready, steps in order, places for findings. What is not known of
 * the engine stays on the card with a word on it. Torque values are never given.
 * @param inputs unit, engine family, jobs and stock; sums are in litres and pieces
 * @throws RangeError when there is no job
 * @example an oil service of a 5 L engine: oil.amountL 5, makersReferenceNeeded false
 */
export function jobCard(inputs: CardInputs, catalog: CardStepFile): JobCard {
  const { unit, engine, banks, asOf, judged, stock, plannedHours } = inputs;
  const jobs = shopJobs.filter((job) => inputs.jobs.includes(job));
  if (jobs.length === 0) throw new RangeError(`jobs must name at least one job, got ${inputs.jobs.length}`);
  const attributes: EngineAttributes = {
    drive: engine?.timingDrive ?? null,
    phasers: engine?.phasers ?? null,
    interference: engine?.interference ?? null,
    banks,
  };
  const oil = jobs.includes('oil_change') || opensTiming(jobs);
  const notes: string[] = [];
  if (engine === null)
    notes.push('The engine family is not described: steps and parts that depend on it stay open.');
  else {
    if (attributes.drive === null) notes.push('The timing drive of this engine family is not recorded.');
    if (attributes.phasers === null) notes.push('Whether this engine family has phasers is not recorded.');
    if (oil && engine.requiredGrade === null)
      notes.push("The grade asked for is not recorded: take it from the maker's information.");
    if (oil && engine.sumpL === null) notes.push('The amount of oil is not recorded: fill by the dipstick.');
  }
  if (banks === null && opensTiming(jobs)) notes.push('The number of cylinder banks is not recorded.');
  return {
    unitNumber: unit.unitNumber,
    description: unit.description,
    site: unit.site,
    engineFamily: engine?.engineFamily ?? null,
    engineWords:
      engine === null
        ? 'not described'
        : [
            attributes.drive === null ? 'timing drive not known' : driveNames[attributes.drive],
            attributes.phasers === null
              ? 'phasers not known'
              : attributes.phasers === 0
                ? 'no phasers'
                : `${attributes.phasers} phasers`,
            attributes.interference === null
              ? 'interference not known'
              : attributes.interference
                ? 'interference engine'
                : 'free-running engine',
          ].join(', '),
    jobs,
    jobWords: jobs.map((job) => jobWords[job]),
    asOf,
    lastOdometerKm: judged?.odometerKm ?? null,
    cautions: [
      ...(judged?.call === 'stop'
        ? ['This unit stands at “Stop and check”: a named technician ends that with a finding.']
        : []),
      ...cautionsFor(cautionPlaces({ ...inputs, jobs })),
    ],
    tools: cardTools(engine, jobs),
    items: cardItems(engine, jobs, stock),
    oil: oil
      ? {
          grade: engine?.requiredGrade ?? null,
          category: engine?.requiredCategory ?? null,
          amountL: engine?.sumpL ?? null,
        }
      : null,
    steps: cardSteps(catalog, jobs, attributes),
    findings: cardFindings(jobs, attributes),
    renewable: renewable(jobs, attributes),
    makersReferenceNeeded: opensTiming(jobs) || jobs.includes('oil_control_solenoid'),
    plannedHours,
    notes,
  };
}
