import type { ComponentChildren } from 'preact';
import { calls } from '../../models/schema/assessment.ts';
import type { UnitLine } from '../../models/schema/fleetList.ts';
import type { Settings } from '../../models/schema/settings.ts';
import { chanceRange } from '../format/chance.ts';
import { date } from '../format/dates.ts';
import { distance, percent, rangeOf } from '../format/measures.ts';
import { modelWords } from '../format/modelWords.ts';
import { callWords, limitName } from '../format/words.ts';
import { CallMark } from './callMark.tsx';

/** One column of the list of units: how it is sorted, shown, and written to a file. */
export interface UnitColumn {
  readonly title: string;
  readonly by: (a: UnitLine, b: UnitLine) => number;
  readonly show: (unit: UnitLine, settings: Settings) => ComponentChildren;
  readonly text: (unit: UnitLine, settings: Settings) => string;
  readonly number?: boolean;
}

const inOrder = new Intl.Collator('en', { numeric: true });

const falling =
  (value: (unit: UnitLine) => number | null | undefined) =>
  (a: UnitLine, b: UnitLine): number =>
    (value(b) ?? -1) - (value(a) ?? -1);

function plainColumn(
  title: string,
  by: UnitColumn['by'],
  text: UnitColumn['text'],
  number = false,
): UnitColumn {
  return { title, by, text, show: text, number };
}

/** An estimate; where it is not known the list says so shortly, the whole reason stands behind it and in the file. */
function estimate(
  title: string,
  by: UnitColumn['by'],
  text: UnitColumn['text'],
  number: boolean,
): UnitColumn {
  const show: UnitColumn['show'] = (unit, settings) => {
    const whole = text(unit, settings);
    const [shortly] = whole.split(': ');
    return shortly === whole ? whole : <span title={whole}>{shortly}</span>;
  };
  return { title, by, text, show, number };
}

const words =
  (value: (unit: UnitLine) => string | null) =>
  (a: UnitLine, b: UnitLine): number =>
    inOrder.compare(value(a) ?? '￿', value(b) ?? '￿');

/** Where a unit stands: its columns by the name that the address uses. */
export const unitColumns: Readonly<Record<string, UnitColumn>> = {
  unit: {
    title: 'Unit',
    by: words((unit) => unit.unitNumber),
    text: (unit) => unit.unitNumber,
    show: (unit) => (
      <a class="unit-number" href={`/units/${encodeURIComponent(unit.unitNumber)}`}>
        {unit.unitNumber}
      </a>
    ),
  },
  call: {
    title: 'Call',
    by: (a, b) => calls.indexOf(a.call) - calls.indexOf(b.call),
    text: (unit) => callWords[unit.call],
    show: (unit) => <CallMark call={unit.call} />,
  },
  site: plainColumn(
    'Site',
    words((unit) => unit.site),
    (unit) => unit.site ?? 'not known',
  ),
  duty: plainColumn(
    'Duty',
    words((unit) => unit.dutyName),
    (unit) => unit.dutyName ?? 'not known',
  ),
  family: plainColumn(
    'Engine family',
    words((unit) => unit.engineFamily),
    (unit) => unit.engineFamily ?? 'not known',
  ),
  odometer: plainColumn(
    'Odometer',
    falling((unit) => unit.odometerKm),
    (unit, { measures }) => distance(unit.odometerKm, measures),
    true,
  ),
  idle: plainColumn(
    'Idle share',
    falling((unit) => unit.idleShare),
    (unit) => `${percent(unit.idleShare)}${unit.idleInferred ? ' inferred' : ''}`,
    true,
  ),
  due: plainColumn(
    'Oil due',
    words((unit) => unit.oil?.dueOn ?? null),
    (unit) => date(unit.oil?.dueOn ?? null),
  ),
  limit: plainColumn(
    'Governed by',
    words((unit) => limitName(unit.oil?.governingLimit ?? null)),
    (unit) => limitName(unit.oil?.governingLimit ?? null),
  ),
  sludge: estimate(
    'Sludge, 0 to 10',
    falling((unit) => unit.sludge?.index),
    (unit) =>
      unit.sludge === null
        ? (unit.notKnown.sludge ?? 'not known')
        : rangeOf(unit.sludge.low, unit.sludge.high, 0.1),
    true,
  ),
  chain: estimate(
    'Chain elongation',
    falling((unit) => unit.chain?.elongationPercent),
    (unit) =>
      unit.chain === null
        ? (unit.notKnown.chain ?? 'not known')
        : `${rangeOf(unit.chain.low, unit.chain.high, 0.01)} %`,
    true,
  ),
  phaser: estimate(
    'Phaser wear',
    falling((unit) => unit.phaser?.wearShare),
    (unit) =>
      unit.phaser === null
        ? (unit.notKnown.phaser ?? 'not known')
        : `${rangeOf(100 * unit.phaser.low, 100 * unit.phaser.high, 1)} %`,
    true,
  ),
  failure: estimate(
    'Timing failure',
    falling((unit) => unit.failure?.probability),
    (unit) =>
      unit.failure === null
        ? (unit.notKnown.failure ?? 'not known')
        : chanceRange(unit.failure.low, unit.failure.high),
    false,
  ),
  next: plainColumn(
    'Next',
    words((unit) => unit.nextStep),
    (unit) => modelWords(unit.nextStep),
  ),
};

/** Shown when the address names none. */
export const usualColumns = [
  'unit',
  'call',
  'site',
  'duty',
  'odometer',
  'idle',
  'due',
  'limit',
  'sludge',
  'chain',
  'failure',
] as const;
