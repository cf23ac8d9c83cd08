import { columnsOf, type Column } from './columns.ts';
import { kindTable, type RecordKind } from './kinds.ts';

/** What a person who fills in a table needs to know of one column. */
export interface FieldGuide {
  /** column name, with its unit of measure where it has one */
  readonly name: string;
  readonly field: string;
  readonly meaning: string;
  /** unit of measure in words; empty when there is none */
  readonly unit: string;
  /** what may stand in it */
  readonly allowed: string;
  readonly required: boolean;
  /** a value as it may stand in a row */
  readonly example: string;
}

const meanings: Readonly<Record<string, string>> = {
  unitNumber: 'the number by which the fleet knows the unit',
  vin: 'vehicle identification number',
  duty: 'what the unit does all day, in your own words; units of one duty learn from each other',
  engineFamily: 'name of the engine as the engines file has it',
  inServiceOn: 'first day in the fleet',
  inServiceOdometerKm: 'odometer on that day',
  odometerKm: 'odometer on that day',
  engineHoursH: 'engine hours on that day',
  idleHoursH: 'idle hours so far; part of the engine hours',
  ptoHoursH: 'hours so far with the power take-off at work',
  fuelL: 'fuel burned so far (readings) or filled (fuel)',
  shortTripShare: 'share of trips too short to warm the oil',
  towingShare: 'share of the distance with a trailer',
  oilL: 'oil filled in',
  oilGrade: 'grade of the oil filled in',
  oilCategory: 'service category of the oil filled in',
  outcome: 'whether a renewal was planned or followed a failure',
  partRevision: 'issue of the part that was fitted',
  bank: 'bank of cylinders, where there is more than one',
  sumpL: 'oil in the sump with the filter',
  bookIntervalKm: "the maker's drain interval for normal service",
  bookIntervalMonths: "the maker's drain interval in time",
  bookSevereIntervalKm: "the maker's drain interval for severe service",
  bookSevereIntervalMonths: "the maker's drain interval in time for severe service",
  hoursLimitH: 'most engine hours on one charge of oil',
  tightStrandMm: 'length of the tight strand of the chain',
  phasers: 'number of camshaft phasers',
  interference: 'whether valves meet pistons when the timing drive fails',
  plannedHours: 'labour of a planned renewal of the timing drive',
  unplannedCostCents: 'cost of a failure of the timing drive',
  unplannedDowntimeDays: 'days out of use after such a failure',
  chainLimitPercent: 'elongation of the chain at which it is renewed',
  value:
    'a number in the unit that the finding names, a word (clean, light, moderate, heavy, severe) or yes/no',
  oilKm: 'distance on this oil',
  oilHoursH: 'engine hours on this oil',
  code: 'fault code as SAE J2012 writes it',
  skills: 'what the person can do, separated by ;',
  awayFrom: 'first day away',
  awayTo: 'last day away',
  leadTimeDays: 'days from order to shelf',
  from: 'first day, or weekdays such as mon,tue',
  to: 'last day',
  item: 'oil with its grade, or the part',
};

const examples: Readonly<Record<string, string>> = {
  unitNumber: 'U-101',
  description: 'crew van',
  site: 'North yard',
  duty: 'parcel delivery',
  engineFamily: 'Family A',
  requiredGrade: '5W-30',
  oilGrade: '5W-30',
  requiredCategory: 'API SP',
  oilCategory: 'API SP',
  work: 'oil and filter change',
  fuel: 'petrol',
  shop: 'North yard',
  finding: 'cover_view',
  value: 'light',
  bank: '1',
  code: 'P0011',
  status: 'stored',
  technician: 'A. B.',
  skills: 'oil;timing',
  item: 'oil 5W-30',
  weekdays: 'mon-fri',
  timeZone: 'Etc/UTC',
  opensAt: '07:30',
  from: '2026-03-30',
  to: '2026-03-31',
  inServiceOn: '2022-05-02',
  inServiceOdometerKm: '12',
  odometerKm: '48200',
  engineHoursH: '1210',
  idleHoursH: '310',
  sumpL: '5',
  oilL: '5',
  displacementL: '2.5',
  bookIntervalKm: '12000',
  bookIntervalMonths: '12',
  hoursLimitH: '250',
  chainPitchMm: '8',
  camSprocketTeeth: '36',
  crankSprocketTeeth: '18',
  tightStrandMm: '300',
  phasers: '2',
  recordId: 'R-1',
};

/** In an example row these stay empty: they belong to few rows. */
const rarely =
  /^(vin|note|recordId|recordedOn|workOrder|planned|acquired|disposed|disposal|warranty|partRevision|paidBy|outcome)/;

const unitWords: Readonly<Record<string, string>> = {
  cents: 'money, plain decimal in the currency of the settings',
  share: 'share from 0 to 1',
  '1': '',
};

function allowedOf(column: Column): string {
  if (column.values !== null) return column.values.join(', ');
  if (column.type === 'date') return 'a day as year-month-day, such as 2026-03-31';
  if (column.type === 'flag') return 'yes or no';
  if (column.type === 'money') return 'plain decimal such as 125.50';
  if (column.type === 'text') return 'text';
  const { min, max } = column;
  if (min !== null && max !== null) return `a number from ${min} to ${max}`;
  if (min !== null) return `a number, at least ${min}`;
  return max === null ? 'a number' : `a number, at most ${max}`;
}

function exampleOf(column: Column): string {
  if (!column.required && rarely.test(column.field)) return '';
  const own = examples[column.field];
  if (column.values !== null)
    return own !== undefined && column.values.includes(own) ? own : column.values[0];
  if (own !== undefined && column.type !== 'date') return own;
  if (column.type === 'date') return own ?? (column.required ? '2026-03-31' : '');
  if (column.type === 'money') return '125.50';
  return '';
}

/**
 * The columns of a kind as a person fills them in, in the order of its schema, made from the schema itself.
 * @example fieldGuide('fuel')[3] → { name: 'fuel_l', unit: 'L', allowed: 'a number from 0 to 3000', required: false, … }
 */
export function fieldGuide(kind: RecordKind): readonly FieldGuide[] {
  const { shape } = kindTable[kind].schema;
  return columnsOf(kind).map((column) => ({
    name: column.name,
    field: column.field,
    meaning: shape[column.field].description ?? meanings[column.field] ?? column.name.replaceAll('_', ' '),
    unit: column.unit === null ? '' : (unitWords[column.unit] ?? column.unit),
    allowed: allowedOf(column),
    required: column.required,
    example: exampleOf(column),
  }));
}
