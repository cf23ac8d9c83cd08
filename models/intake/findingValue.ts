import type { FindingKind } from '../schema/finding.ts';
import { coverViews } from '../schema/finding.ts';
import { readFlag } from './flagText.ts';
import { readNumber, type DecimalMark } from './numberText.ts';
import { reason, type Reason } from './reasons.ts';
import { unitFor } from './unitWords.ts';
import type { FieldUnit } from '../schema/fields.ts';

interface Scale {
  readonly unit: FieldUnit;
  readonly min: number;
  readonly max: number;
}

/** What can be measured, widest: beyond it the value is a slip of the pen. */
const scales: Partial<Record<FindingKind, Scale>> = {
  screen_blocked_share: { unit: 'share', min: 0, max: 1 },
  phase_deviation_crank_deg: { unit: '°', min: -120, max: 120 },
  start_rattle_s: { unit: 's', min: 0, max: 120 },
  hot_idle_pressure_kpa: { unit: 'kPa', min: 0, max: 1000 },
  chain_elongation_percent: { unit: '%', min: -0.5, max: 5 },
  oil_level_low_l: { unit: 'L', min: 0, max: 60 },
};

/** A finding's value in the unit that its name carries, a word for a cover view, `yes` or `no`; or why it is held. */
export function readFindingValue(
  finding: string,
  cell: string,
  mark: DecimalMark,
  coverWord: (cell: string) => string | null,
): string | Reason {
  if (finding === 'cleared') return cell;
  if (finding === 'cover_view') {
    const word = coverWord(cell);
    return (
      word ??
      reason('unknown_word', 'value', `a cover view is one of ${coverViews.join(', ')}, got "${cell}"`)
    );
  }
  const scale = scales[finding as FindingKind];
  if (scale === undefined) {
    const flag = readFlag(cell);
    if (flag !== null) return flag ? 'yes' : 'no';
    return reason('not_a_flag', 'value', `${finding} is yes or no, got "${cell}"`);
  }
  const read = readNumber(cell, mark);
  if (typeof read === 'string') return reason(read, 'value', `${finding} is a number, got "${cell}"`);
  const unit = read.unit === '' ? null : unitFor(read.unit, scale.unit);
  if (read.unit !== '' && unit === null)
    return reason('unknown_unit', 'value', `${finding} "${cell}" carries a unit that does not fit`);
  if (finding === 'screen_blocked_share' && unit === null && read.value > 1 && read.value <= 100)
    return reason('share_or_percent', 'value', `${finding} is ${read.value}, but a share is at most 1`);
  const value = unit === null ? read.value : read.value * unit.factor + unit.offset;
  if (value < scale.min || value > scale.max)
    return reason(
      'out_of_range',
      'value',
      `${finding} is ${cell}, possible are ${scale.min} to ${scale.max}`,
    );
  return String(Number(value.toPrecision(12)));
}
