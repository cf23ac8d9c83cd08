import { namesSomeone } from '../assessment/extensionApproval.ts';
import type { CardClosing, JobCard } from '../schema/jobCard.ts';
import { opensTiming } from './cardItems.ts';
import type { FieldFault } from './visitMoves.ts';

const sameName = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

function stepFaults(card: JobCard, closing: CardClosing): FieldFault[] {
  const faults: FieldFault[] = [];
  const left = new Map(closing.steps.map((step) => [step.id, step]));
  for (const step of card.steps) {
    const state = left.get(step.id);
    const field = `steps.${step.id}`;
    if (step.needs === 'reference') continue;
    if (state?.done !== true) {
      if (step.optional !== true && (state?.leftOut ?? '').length < 3)
        faults.push({ field, message: `Not ticked, and no reason why it was left out: ${step.words}` });
      continue;
    }
    const value = state.value ?? '';
    if (step.needs === 'value' && value === '')
      faults.push({
        field,
        message: `${step.value?.label ?? 'a value'} must be written down: ${step.words}`,
      });
    else if (
      step.needs === 'value' &&
      step.value?.type === 'number' &&
      !Number.isFinite(Number(value.replace(',', '.')))
    )
      faults.push({ field, message: `${step.value.label} must be a number, got "${value}"` });
    if (step.needs === 'second_person') {
      if (!namesSomeone(state.person ?? ''))
        faults.push({ field, message: `The second person's name is needed: ${step.words}` });
      else if (sameName(state.person ?? '', closing.technician))
        faults.push({ field, message: `The second person must be another than ${closing.technician}.` });
    }
  }
  return faults;
}

/**
 * What still stands against closing a card. Demanded steps are ticked or left out with a reason; a timing card names the
 * maker's procedure; the second person is another one; an oil service says grade, amount and used oil.
 * @param asOf ISO date; work can't be dated after it
 * @returns faults by field; none → it may be closed
 * @example an unnamed technician → [{ field: 'technician', message: 'technician must be the name of a person, got ""' }]
 */
export function checkClosing(card: JobCard, closing: CardClosing, asOf: string): FieldFault[] {
  const faults: FieldFault[] = [];
  if (!namesSomeone(closing.technician))
    faults.push({
      field: 'technician',
      message: `technician must be the name of a person, got "${closing.technician}"`,
    });
  if (closing.closedOn !== null && closing.closedOn > asOf)
    faults.push({
      field: 'closedOn',
      message: `closedOn must not be after ${asOf}, got ${closing.closedOn}`,
    });
  if (closing.jobsDone.length === 0)
    faults.push({ field: 'jobsDone', message: 'jobsDone must name at least one job that was done' });
  const foreign = closing.jobsDone.find((job) => !card.jobs.includes(job));
  if (foreign !== undefined)
    faults.push({ field: 'jobsDone', message: `jobsDone must be jobs of this card, got ${foreign}` });
  if (card.makersReferenceNeeded && (closing.makersReference ?? '').length < 3)
    faults.push({
      field: 'makersReference',
      message: "The maker's procedure that was followed must be named before a timing card is closed.",
    });
  if (closing.odometerKm === null && closing.engineHoursH === null)
    faults.push({ field: 'odometerKm', message: 'odometer or engine hours must be noted' });
  const oilDone = closing.jobsDone.includes('oil_change') || opensTiming(closing.jobsDone);
  if (oilDone && (closing.oil === null || closing.oil.grade === '' || !(closing.oil.amountL > 0)))
    faults.push({ field: 'oil', message: 'oil must say grade and amount filled' });
  if (oilDone && closing.usedOilL === null)
    faults.push({
      field: 'usedOilL',
      message: 'usedOilL must say how much used oil was collected; 0 when none',
    });
  if (opensTiming(closing.jobsDone) && closing.renewed.length === 0)
    faults.push({ field: 'renewed', message: 'renewed must name what was renewed' });
  const unexpected = closing.renewed.find(({ work }) => !card.renewable.includes(work));
  if (unexpected !== undefined)
    faults.push({ field: 'renewed', message: `renewed must be parts of this card, got ${unexpected.work}` });
  return [...faults, ...stepFaults(card, closing)];
}
