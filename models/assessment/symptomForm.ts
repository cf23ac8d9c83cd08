import { readFindingValue } from '../intake/findingValue.ts';
import { readNumber } from '../intake/numberText.ts';
import { unitFor } from '../intake/unitWords.ts';
import type { DeskEntry, DeskFinding, DeskUnit } from '../schema/deskEndpoints.ts';
import type { FieldUnit } from '../schema/fields.ts';
import type { FindingKind } from '../schema/finding.ts';
import { noSymptoms, type SymptomInputs } from '../wear/symptomSigns.ts';
import { typedCodes } from './symptomCodes.ts';

/** The desk's form as it was typed; '' = not asked or not measured. */
export interface SymptomForm {
  readonly codes: string;
  /** a reader was connected and showed no code */
  readonly noCodes: boolean;
  readonly rattle: string;
  readonly soak: string;
  readonly pressure: string;
  readonly rpm: string;
  readonly oilTemperature: string;
  readonly screen: string;
  readonly phase: string;
  readonly level: '' | 'ok' | 'low';
  readonly levelLiters: string;
  readonly grade: '' | 'ok' | 'wrong';
  readonly ventilation: '' | 'ok' | 'fault';
  readonly thermostat: '' | 'ok' | 'fault';
  readonly wiring: '' | 'ok' | 'fault';
  readonly coolant: '' | 'no' | 'yes';
  readonly bank: '' | '1' | '2';
  readonly technician: string;
  readonly foundOn: string;
  readonly note: string;
  readonly cleared: string;
  readonly confirmed: DeskEntry['confirmed'];
}

/** A form in which nothing was typed. */
export const emptyForm: SymptomForm = {
  codes: '',
  noCodes: false,
  rattle: '',
  soak: '',
  pressure: '',
  rpm: '',
  oilTemperature: '',
  screen: '',
  phase: '',
  level: '',
  levelLiters: '',
  grade: '',
  ventilation: '',
  thermostat: '',
  wiring: '',
  coolant: '',
  bank: '',
  technician: '',
  foundOn: '',
  note: '',
  cleared: '',
  confirmed: [],
};

/** A measure beside a finding, in its own unit; null when it is empty or can not be read. */
function measured(text: string, unit: FieldUnit): number | null {
  if (text.trim() === '') return null;
  const read = readNumber(text.trim(), '.');
  if (typeof read === 'string') return null;
  if (read.unit === '') return read.value;
  const word = unitFor(read.unit, unit);
  return word === null ? null : read.value * word.factor + word.offset;
}

/** A finding's value as a number in its own unit; null when it is empty or raises a question. */
function valueOf(finding: FindingKind, text: string): number | null {
  if (text.trim() === '') return null;
  const read = readFindingValue(finding, text.trim(), '.', () => null);
  return typeof read === 'string' ? Number(read) : null;
}

const flagOf = (value: string, yes: string): boolean | null => (value === '' ? null : value === yes);

/**
 * The signs that the form says, for weighing at once. What can not be read yet or is still to be confirmed is not weighed.
 * @param unit null: no unit chosen; phase degrees then count only with a typical drive once confirmed
 */
export function symptomInputs(form: SymptomForm, unit: DeskUnit | null): SymptomInputs {
  const codes = typedCodes(form.codes);
  const phaseStands = (unit !== null && unit.drive !== null) || form.confirmed.includes('phase_geometry');
  return {
    ...noSymptoms,
    codes: codes.length > 0 ? codes : form.noCodes ? [] : null,
    rattleS: valueOf('start_rattle_s', form.rattle),
    soakH: measured(form.soak, 'h'),
    hotIdlePressureKpa: valueOf('hot_idle_pressure_kpa', form.pressure),
    engineRpm: measured(form.rpm, '1/min'),
    oilTemperatureC: measured(form.oilTemperature, '°C'),
    screenBlockedShare: valueOf('screen_blocked_share', form.screen),
    phaseDeviationCrankDeg: phaseStands ? valueOf('phase_deviation_crank_deg', form.phase) : null,
    levelLow: flagOf(form.level, 'low'),
    gradeOk: flagOf(form.grade, 'ok'),
    ventilationFault: flagOf(form.ventilation, 'fault'),
    thermostatOpen: flagOf(form.thermostat, 'fault'),
    wiringFault: flagOf(form.wiring, 'fault'),
    coolantInOil: flagOf(form.coolant, 'yes'),
  };
}

/** What of the form can be kept as records. Signs without a record of their own go into the note, in words. */
export function entryOfForm(form: SymptomForm): DeskEntry {
  const findings: DeskFinding[] = [];
  const none = { soakH: null, engineRpm: null, oilTemperatureC: null };
  const bank = form.bank === '' ? null : form.bank;
  const add = (finding: FindingKind, value: string, more: Partial<DeskFinding> = {}): void => {
    if (value.trim() !== '') findings.push({ finding, value: value.trim(), bank: null, ...none, ...more });
  };
  add('start_rattle_s', form.rattle, { soakH: measured(form.soak, 'h') });
  add('hot_idle_pressure_kpa', form.pressure, {
    engineRpm: measured(form.rpm, '1/min'),
    oilTemperatureC: measured(form.oilTemperature, '°C'),
  });
  add('screen_blocked_share', form.screen, { bank });
  add('phase_deviation_crank_deg', form.phase, { bank });
  add('oil_level_low_l', form.level === 'ok' ? '0' : form.level === 'low' ? form.levelLiters : '');
  add('ventilation_fault', yesNo(form.ventilation, 'fault'));
  add('thermostat_open', yesNo(form.thermostat, 'fault'));
  add('coolant_in_oil', yesNo(form.coolant, 'yes'));
  const words = [
    form.note.trim(),
    form.grade === 'wrong' && 'oil not what the engine asks for',
    form.wiring === 'fault' && 'connector, wiring or sensor faulty',
    form.wiring === 'ok' && 'connectors, wiring and sensors in order',
    form.level === 'low' && form.levelLiters.trim() === '' && 'oil level low, litres not measured',
  ].filter((part): part is string => typeof part === 'string' && part !== '');
  return {
    technician: form.technician.trim(),
    foundOn: form.foundOn === '' ? undefined : form.foundOn,
    odometerKm: null,
    codes: [...typedCodes(form.codes)],
    findings,
    note: words.length === 0 ? null : words.join('; ').slice(0, 500),
    cleared: form.cleared.trim() === '' ? null : form.cleared.trim(),
    confirmed: form.confirmed,
  };
}

const yesNo = (value: string, yes: string): string => (value === '' ? '' : value === yes ? 'yes' : 'no');
