import type { Engine } from '../schema/engine.ts';
import type { CardItem } from '../schema/jobCard.ts';
import type { PlanItem, ShopJob } from '../schema/shopPlan.ts';
import type { Stock } from '../schema/shopResources.ts';

type Wanted = Omit<CardItem, 'onHand'>;

/** True for jobs that open the timing drive. */
export function opensTiming(jobs: readonly ShopJob[]): boolean {
  return jobs.some((job) => job === 'timing_set' || job === 'phaser');
}

function wanted(engine: Engine, jobs: readonly ShopJob[]): Wanted[] {
  const { engineFamily, sumpL, requiredGrade, phasers, timingDrive } = engine;
  const has = (job: ShopJob): boolean => jobs.includes(job);
  const list: Wanted[] = [];
  const piece = (item: string, words: string, quantity: number | null, oneTime = false): void =>
    void list.push({ item: `${item} ${engineFamily}`, words, quantity, measure: 'pieces', oneTime });
  const oil = has('oil_change') || opensTiming(jobs);
  if (oil) {
    list.push({
      item: `oil ${requiredGrade ?? 'grade not known'}`,
      words: requiredGrade === null ? 'engine oil, grade by the maker' : `engine oil ${requiredGrade}`,
      quantity: sumpL,
      measure: 'l',
      oneTime: false,
    });
    piece('filter', 'oil filter', 1, true);
    piece('drain seal', 'seal of the drain plug', 1, true);
  }
  if (has('timing_set')) {
    const belt = timingDrive === 'belt' || timingDrive === 'wet_belt';
    piece(belt ? 'belt' : 'timing_set', belt ? 'timing belt set' : 'timing set', 1);
    if (timingDrive === 'chain' || timingDrive === 'silent_chain')
      piece('tensioner_guides', 'tensioner and guides, where the set has none', null);
  }
  if (has('phaser')) piece('phaser', 'camshaft phaser', phasers !== null && phasers > 0 ? phasers : null);
  if (has('phaser') || (has('timing_set') && phasers !== 0))
    piece(
      'phaser bolt',
      'phaser bolt, used once, carries oil',
      phasers !== null && phasers > 0 ? phasers : null,
      true,
    );
  if (has('oil_control_solenoid') || has('phaser'))
    piece('oil_control_solenoid', 'oil control solenoid', phasers !== null && phasers > 0 ? phasers : null);
  if (has('screen_look') || has('oil_control_solenoid') || has('phaser'))
    piece(
      'solenoid seal',
      'seal of the control solenoid',
      phasers !== null && phasers > 0 ? phasers : null,
      true,
    );
  if (opensTiming(jobs)) piece('cover seals', 'seals of the covers that come off', null, true);
  if (has('sample'))
    list.push({
      item: 'sample bottle',
      words: 'sample bottle with label',
      quantity: 1,
      measure: 'pieces',
      oneTime: true,
    });
  return list;
}

/**
 * Parts and oil that lie ready, with what the shelf of the site has.
 * @param stock records of the site; null quantity = by the maker, not known here
 * @example oil service, 5 L sump → 5 l of the grade asked for, 1 filter, 1 drain seal
 */
export function cardItems(
  engine: Engine | null,
  jobs: readonly ShopJob[],
  stock: readonly Stock[],
): CardItem[] {
  if (engine === null) return [];
  const shelf = new Map(stock.map((entry) => [entry.item.toLowerCase(), entry.onHand]));
  return wanted(engine, jobs).map((entry) => ({
    ...entry,
    onHand: shelf.get(entry.item.toLowerCase()) ?? null,
  }));
}

/**
 * The same for a plan's orders, by job. Where the number is the maker's and not known here, one is ordered; what only some
 * sets lack is left to the card.
 * @example phaser renewal of an engine with two phasers → 2 phasers, 2 phaser bolts, 2 solenoids, oil, filter, seals
 */
export function orderItems(engine: Engine | null, job: ShopJob): PlanItem[] {
  if (engine === null) return job === 'sample' ? [sampleBottle] : [];
  return wanted(engine, [job])
    .filter(({ item, quantity, measure }) => !(measure === 'l' && (quantity ?? 0) === 0) && !spare(item))
    .map(({ item, quantity, measure, oneTime }) => ({
      item,
      kind: measure === 'l' ? 'oil' : item.startsWith('filter ') ? 'filter' : oneTime ? 'one_time' : 'kit',
      quantity: quantity ?? 1,
      measure,
    }));
}

const sampleBottle: PlanItem = { item: 'sample bottle', kind: 'one_time', quantity: 1, measure: 'pieces' };
const spare = (item: string): boolean => item.startsWith('tensioner_guides ');

/** Tools to have ready, by job, in words. */
export function cardTools(engine: Engine | null, jobs: readonly ShopJob[]): string[] {
  const tools: string[] = ['gloves, eye protection, cloths, the marked drum for used oil'];
  const drive = engine?.timingDrive ?? null;
  if (jobs.includes('oil_change') || opensTiming(jobs))
    tools.push('filter wrench, torque wrench, measuring jug');
  if (jobs.includes('sample')) tools.push('clean sample bottle, tube or port adapter');
  if (jobs.includes('screen_look') || jobs.includes('oil_control_solenoid'))
    tools.push('lamp, magnifier, clean tray for the solenoid');
  if (jobs.includes('cover_view')) tools.push('lamp, mirror or scope, camera');
  if (jobs.includes('phase_reading') || opensTiming(jobs) || jobs.includes('check'))
    tools.push('reader for codes, freeze frames and phase values');
  if (opensTiming(jobs)) {
    tools.push("the maker's setting tools for this engine", 'mechanical oil-pressure gauge');
    tools.push('wrench for the flats of the camshaft, torque and angle wrench');
    if (drive !== 'gear') tools.push("the tensioner's holding pin or tool");
    tools.push('numbered trays for caps and bolts', 'wrench to turn the engine by hand');
  }
  return tools;
}
