export type DecimalMark = '.' | ',';

/** What a cell says when it is read as a number. */
export interface NumberRead {
  readonly value: number;
  /** the text after or before the number, a unit of measure or nothing */
  readonly unit: string;
  /** `<` or `>` in front */
  readonly bound: '' | '<' | '>';
  /** false when a mark could be a decimal or a thousands mark and only the column's habit settles it */
  readonly certain: boolean;
}

export type NumberFault = 'not_a_number' | 'formula_without_value' | 'digits_lost';

const plain = /^-?\d+(?:\.(?:\d{1,2}|\d{4,}))?$/;
const shape =
  /^([<>≤≥~≈]?)\s*([-+−(]?)\s*([a-z$€£¥.]{0,4}?)\s*([-+−]?)(\d[\d.,'’\u00a0\u202f\u2009 ]*|[.,]\d+)(e[+-]?\d+)?\s*([-−]?)\s*(\)?)\s*([^\d]*|[^\d]*[23²³]?\/?[a-z0-9]*)$/i;

/** How the marks inside a run of digits are meant. */
export function splitMarks(digits: string, mark: DecimalMark): { text: string; certain: boolean } | null {
  const bare = digits.replace(/['’\u00a0\u202f\u2009 ]+$/, '');
  const grouped = /['’\u00a0\u202f\u2009 ]/.test(bare);
  if (grouped && !/^\d{1,3}(['’\u00a0\u202f\u2009 ]\d{3})+([.,]\d*)?$/.test(bare)) return null;
  const text = bare.replace(/['’\u00a0\u202f\u2009 ]/g, '');
  const dots = text.split('.').length - 1;
  const commas = text.split(',').length - 1;
  if (dots === 0 && commas === 0) return { text, certain: true };
  if (dots > 0 && commas > 0) {
    const decimal = text.lastIndexOf('.') > text.lastIndexOf(',') ? '.' : ',';
    const [whole = '', part = ''] = [
      text.slice(0, text.lastIndexOf(decimal)),
      text.slice(text.lastIndexOf(decimal) + 1),
    ];
    const thousands = decimal === '.' ? ',' : '.';
    if (whole.includes(decimal) || !/^\d{1,3}([.,]\d{3})+$/.test(whole)) return null;
    return { text: `${whole.split(thousands).join('')}.${part}`, certain: true };
  }
  const used = dots > 0 ? '.' : ',';
  if (dots + commas > 1)
    return /^\d{1,3}([.,]\d{3})+$/.test(text) ? { text: text.split(used).join(''), certain: true } : null;
  const at = text.indexOf(used);
  const couldGroup = !grouped && text.length - at - 1 === 3 && at >= 1 && at <= 3 && text[0] !== '0';
  if (!couldGroup) return { text: text.replace(used, '.'), certain: true };
  return { text: used === mark ? text.replace(used, '.') : text.replace(used, ''), certain: false };
}

/**
 * Reads a number as people write it: thousands separators, decimal point or comma, a currency sign, a unit behind it,
 * brackets or a trailing minus for negatives.
 * @param mark the decimal mark of the column; only used where the number itself leaves it open
 * @example readNumber('12.345,6 km', '.') → { value: 12345.6, unit: 'km', bound: '', certain: true }
 */
export function readNumber(cell: string, mark: DecimalMark): NumberRead | NumberFault {
  // A point before any number of digits but three is never a thousands mark.
  if (plain.test(cell)) return { value: Number(cell), unit: '', bound: '', certain: true };
  if (cell.startsWith('=')) return 'formula_without_value';
  if (/^#+$/.test(cell)) return 'digits_lost';
  const found = shape.exec(cell);
  if (found === null) return 'not_a_number';
  const [
    ,
    bound = '',
    open = '',
    before = '',
    inner = '',
    digits = '',
    exponent = '',
    trailing = '',
    close = '',
    after = '',
  ] = found;
  if ((open === '(') !== (close === ')')) return 'not_a_number';
  const split = splitMarks(digits, mark);
  if (split === null) return 'not_a_number';
  const mantissa = split.text.replace('.', '').replace(/^0+/, '').length;
  if (exponent !== '' && Number(exponent.slice(1)) + 1 > mantissa) return 'digits_lost';
  const value = Number(split.text + exponent);
  if (!Number.isFinite(value)) return 'not_a_number';
  const negative = /[-−(]/.test(open + inner + trailing);
  return {
    value: negative ? -value : value,
    unit: after.trim() !== '' ? after.trim() : before.trim(),
    bound: bound === '<' || bound === '≤' ? '<' : bound === '>' || bound === '≥' ? '>' : '',
    certain: split.certain,
  };
}

const currencies = /^([$€£¥]|usd|us\$|eur|gbp|cad|aud|chf|sek|pln|mxn|brl|r\$|kr|zl|zł)\.?$/i;

/** True for a currency sign or code beside an amount. */
export function isCurrency(text: string): boolean {
  return currencies.test(text);
}

const nothing =
  /^(|-+|—|–|\.|\?+|n\/?a\.?|n\.a\.?|na|null|nil|none|nan|unknown|unbekannt|inconnu|desconocido|k\.?a\.?|not known|not recorded|no data|#n\/a|tbd|x)$/i;

/** True for a cell that says "not known" in one of its many ways. */
export function saysNothing(cell: string): boolean {
  if (cell === '') return true;
  const first = cell.charCodeAt(0);
  return cell.length <= 12 && (first < 49 || first > 57) && nothing.test(cell);
}
