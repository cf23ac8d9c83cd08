import type { WorkKind } from '../../models/schema/service.ts';
import type { Random } from './random.ts';

/** What one job is called on a work order. Grade and amount stand in for {g}, {l} and {q}. */
const phrases: Readonly<Record<WorkKind, readonly string[]>> = {
  oil_change: [
    'oil change',
    'Oil change {g}',
    'changed engine oil, {l} L {g}',
    'engine oil svc',
    'oil chg {g}',
    'drain & refill {g}',
    'oil service',
  ],
  filter: ['oil filter', 'filter', 'replaced oil filter', 'new oil fltr'],
  top_up: [
    'top up {q} qt',
    'topped up oil {l} L',
    'added {q} qt {g}',
    'low on oil, added {l} L',
    'top off engine oil',
  ],
  timing_set: [
    'R&R timing set',
    'timing chain kit replaced',
    'renewed timing chain and sprockets',
    'timing chain R/R',
  ],
  phaser: [
    'R&R cam phaser B1',
    'replaced intake cam phaser',
    'VVT phaser replaced',
    'both cam phasers renewed',
  ],
  oil_control_solenoid: [
    'replaced oil control solenoid',
    'R&R VVT solenoid',
    'OCV replaced',
    'oil control valve B1 renewed',
  ],
  tensioner_guides: ['timing chain tensioner and guides replaced', 'R&R chain tensioner'],
  belt: ['timing belt replaced', 'R&R timing belt kit', 'renewed timing belt + tensioner pulley'],
  cam_sensor: ['replaced camshaft position sensor', 'R&R cam sensor', 'cam pos sensor B1'],
  crank_sensor: ['replaced crankshaft position sensor', 'R&R crank sensor', 'CKP sensor replaced'],
  ventilation_valve: [
    'PCV valve replaced',
    'renewed crankcase vent valve',
    'crankcase breather valve stuck, replaced',
  ],
  thermostat: ['thermostat replaced', 'R&R t-stat, stuck open', 'engine running cold, new thermostat'],
  screen_cleaned: ['pulled oil control screen, cleaned', 'cleaned VVT filter screen', 'OCV screen cleaned'],
  engine: ['engine replaced', 'R&R long block', 'installed reman engine', 'replacement engine fitted'],
  meter_replaced: ['instrument cluster replaced', 'odometer replaced', 'meter_replaced'],
  inspection: [
    'PM-A inspection',
    'annual inspection',
    'PM inspection, no faults found',
    '90 day safety inspection',
  ],
  other: [
    'front brake pads and rotors',
    'rotated tires, set pressures',
    'replaced battery',
    'trans fluid service',
    'coolant flush',
    'cabin and engine air filter',
    'wiper blades, washer fluid',
    'alternator replaced',
    'rear brakes, park brake adj',
    'wheel bearing LF',
    'AC recharge',
    'replaced oil pressure sensor',
    'front struts and alignment',
    'tire repair RR',
    'spark plugs',
    'serpentine belt and tensioner',
    'headlamp bulb',
    'diff fluid',
  ],
};

const oilAndFilter = [
  'LOF',
  'LOF',
  'oil & filter',
  'oil and filter change {g}',
  'LOF {g} {l}L',
  'PM-B: oil + filter',
  'O&F svc',
  'engine oil and filter, {g}',
  'lube oil filter, checked fluids',
  'oil/filter chg, rotate tires',
  'Oli change and filter',
  'changed oil + fltr {q} qts {g}',
];

/** The shop's words for a set of jobs. */
export function shopWords(
  works: readonly WorkKind[],
  random: Random,
  fill: { grade: string | null; liters: number | null },
): string {
  const parts: string[] = [];
  const rest = [...works];
  const oil = rest.includes('oil_change') && rest.includes('filter');
  if (oil) {
    rest.splice(rest.indexOf('oil_change'), 1);
    rest.splice(rest.indexOf('filter'), 1);
  }
  for (const work of rest) parts.push(random.pick(phrases[work]));
  if (oil)
    parts.push(random.pick(parts.length > 0 ? ['LOF', 'oil & filter', 'oil and filter'] : oilAndFilter));
  return fillIn(parts.join(', '), fill);
}

function fillIn(text: string, fill: { grade: string | null; liters: number | null }): string {
  const liters = fill.liters ?? null;
  return text
    .replace('{g}', fill.grade ?? '')
    .replace(/\{l\} ?L/, liters === null ? '' : `${liters} L`)
    .replace(/\{q\} qts?/, liters === null ? '' : `${Math.round((10 * liters) / 0.946) / 10} qt`)
    .replace(/ +,/g, ',')
    .replace(/ {2,}/g, ' ')
    .replace(/[, ]+$/, '');
}
