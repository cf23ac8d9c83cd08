/**
 * Why a row is held or remarked on: stable codes, each with what to do about it. The message of a reason says what was
 * found first and this advice after it.
 */
export const reasonAdvice = {
  // the row as a whole
  too_many_cells: 'a separator stands inside a text without quotes: put that text in quotes',
  row_cut_off: 'the last row was cut off: send the whole file again',
  quote_swallowed_rows: 'a quote is opened and never closed in this line: mend the quote',
  missing_required: 'fill it in',
  exact_repeat: 'nothing to do: the same row was taken already',
  same_visit: 'check whether both rows tell of one visit; drop one or keep both',
  // numbers and units of measure
  not_a_number: 'write the number alone, its unit in the column name',
  formula_without_value: 'save the workbook with its results and send it again',
  digits_lost: 'show the column in full in the spreadsheet and export it again',
  unknown_unit: 'write the unit as km, mi, h, L, qt, gal, °C or °F, or give the number without one',
  negative: 'give a value of 0 or more, or leave it empty when it is not known',
  out_of_range: 'check the value and its unit',
  below_detection: 'nothing to do: the limit of detection was taken',
  share_or_percent: 'say whether it is per cent or a share: write 40% or 0.4',
  number_ambiguous: 'say which mark is the decimal mark',
  // dates
  date_unreadable: 'write the date as year-month-day, like 2026-03-31',
  date_impossible: 'that day does not exist: check day and month',
  date_ambiguous: 'say whether day or month comes first',
  date_future: 'check the year; records are of the past',
  date_too_old: 'check the year',
  date_order: 'check which of the two dates is right',
  date_before_service: 'check the date, or the day on which the unit went into service',
  date_after_disposal: 'check the date, or the day on which the unit was disposed of',
  // words
  not_a_flag: 'write yes or no',
  unknown_word: 'use one of the words listed',
  not_a_code: 'write a code as one letter P, B, C or U and four digits, like P0011',
  vin_check_digit: 'compare the number with the vehicle: one character may be wrong',
  // chemistry
  viscosity_order:
    'viscosity at 40 °C is always above that at 100 °C: check whether the two columns are swapped',
  viscosity_unlikely: 'the two viscosities do not belong to one oil: check both',
  chemistry_impossible: 'no engine oil has that: check the value, its unit and the method',
  base_above_new_oil:
    'no oil for road vehicles has so high a base number even when new: check the value, its method and the sample',
  base_other_method:
    'base numbers are compared by D2896 or D4739 only: correct the method, or leave the base number empty',
  percent_sum: 'fuel, soot and water together cannot pass 100 %: check the units',
  // meters
  idle_above_hours: 'idle hours are part of engine hours: check whether the two are swapped',
  odometer_back: 'check the meter value; say so when the meter was replaced',
  hours_back: 'check the meter value; say so when the meter was replaced',
  idle_back: 'check the meter value; say so when the meter was replaced',
  fuel_back: 'check the meter value; say so when the meter was replaced',
  odometer_jump: 'check the meter value: nobody drives that far in that time',
  hours_jump: 'check the meter value: the engine cannot run longer than the clock',
  odometer_digit: 'one digit seems to be missing, doubled or swapped: take the value proposed if it is right',
  odometer_unit: 'the value fits when read in the other unit of measure: say which one the row is in',
  oil_distance_above_odometer: 'the oil cannot be older than the unit: check both distances',
  meter_note: 'write the old and the new meter value in the note, like old=182000 new=12',
} as const;

export type ReasonCode = keyof typeof reasonAdvice;

/** Why a row is held, for people and for programs. */
export interface Reason {
  readonly code: ReasonCode;
  readonly message: string;
  /** the field it is about, or null for the whole row */
  readonly field: string | null;
}

/**
 * Makes a reason: what was found, then what to do.
 * @example reason('negative', 'oilL', 'oil_l is -3') → message "oil_l is -3; give a value of 0 or more, …"
 */
export function reason(code: ReasonCode, field: string | null, found: string): Reason {
  return { code, field, message: `${found}; ${reasonAdvice[code]}` };
}
