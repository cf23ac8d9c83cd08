import { namesSomeone } from '../assessment/extensionApproval.ts';
import type { Visit, VisitState, VisitStep } from '../schema/visit.ts';
import { visitStateWords } from '../schema/visit.ts';

/** From where a visit may go on; `done` is reached by closing its card. */
const next: Readonly<Record<VisitState, readonly VisitState[]>> = {
  asked: ['booked', 'arrived', 'put_off'],
  booked: ['arrived', 'put_off', 'did_not_come'],
  arrived: ['waiting_parts', 'put_off', 'booked'],
  waiting_parts: ['arrived', 'put_off'],
  put_off: ['booked', 'arrived', 'put_off', 'did_not_come'],
  did_not_come: ['booked', 'put_off', 'arrived'],
  done: [],
};

/** States that a visit can be moved to by hand. */
export function nextStates(state: VisitState): readonly VisitState[] {
  return next[state];
}

/** How often a visit may be put off by its approver alone; from there on the manager decides. */
export const putOffsBeforeManager = 2;

/** What is wrong with a field of a request. */
export interface FieldFault {
  readonly field: string;
  readonly message: string;
}

/**
 * Checks the next state of a visit. Putting off needs a reason, an approver, a later date; the third time the manager's
 * name (common practice, no source).
 * @param visit as it stands
 * @param asOf ISO date; a new date lies after it
 * @returns what is missing or not possible; none → it may be done
 * @example checkVisitStep(booked, { to: 'done', … }, '2026-04-01') → [{ field: 'to', message: … }]
 */
export function checkVisitStep(
  visit: Pick<Visit, 'state' | 'on' | 'timesPutOff'>,
  step: Omit<VisitStep, 'version'>,
  asOf: string,
): FieldFault[] {
  const faults: FieldFault[] = [];
  const named = (field: string, value: string | null): void => {
    if (value === null || !namesSomeone(value))
      faults.push({ field, message: `${field} must be the name of a person, got "${value ?? ''}"` });
  };
  named('by', step.by);
  if (step.to === 'done') {
    faults.push({ field: 'to', message: 'A visit is done when its job card is closed.' });
    return faults;
  }
  if (!next[visit.state].includes(step.to))
    faults.push({
      field: 'to',
      message: `A visit that is ${visitStateWords[visit.state]} can't become ${visitStateWords[step.to]}.`,
    });
  if (step.to !== 'put_off') return faults;
  if (step.reason === null || step.reason.length < 3)
    faults.push({ field: 'reason', message: 'reason must say why it is put off' });
  named('approver', step.approver);
  if (step.newDate === null || step.newDate <= visit.on || step.newDate <= asOf)
    faults.push({
      field: 'newDate',
      message: `newDate must be after ${visit.on > asOf ? visit.on : asOf}, got ${step.newDate ?? 'none'}`,
    });
  if (visit.timesPutOff >= putOffsBeforeManager) {
    if (step.manager === null || !namesSomeone(step.manager))
      faults.push({
        field: 'manager',
        message:
          `This visit was put off ${visit.timesPutOff} times; the ${visit.timesPutOff + 1}th time goes to the manager, whose name is needed.`.replace(
            '3th',
            'third',
          ),
      });
  }
  return faults;
}
