import { contentOf, dayNumber, type CheckRecord, type Repeat } from './checkRecord.ts';

const numberOf = (entry: CheckRecord, field: string) => {
  const value = entry.record[field];
  return typeof value === 'number' ? value : null;
};
const filledFields = (entry: CheckRecord) =>
  Object.values(entry.record).filter((value) => value !== null).length;

/** Distances within which two sources note the same stand of a meter: a trip home, or rounding. */
const sameKm = 80;
const sameDays = 3;

function close(a: number | null, b: number | null, within: number): boolean | null {
  return a === null || b === null ? null : Math.abs(a - b) <= within;
}

function isSameService(a: CheckRecord, b: CheckRecord, days: number): boolean {
  const shared = a.works.some((work) => work !== 'other' && work !== 'inspection' && b.works.includes(work));
  if (!shared) return false;
  const meters = [
    close(numberOf(a, 'odometerKm'), numberOf(b, 'odometerKm'), sameKm),
    close(numberOf(a, 'engineHoursH'), numberOf(b, 'engineHoursH'), 8),
  ];
  if (meters.includes(false)) return false;
  // Without a meter in common only the same day will do.
  if (!meters.includes(true) && days > 0) return false;
  const banks = [a.record['bank'], b.record['bank']];
  return banks[0] === null || banks[1] === null || banks[0] === banks[1];
}

function isSameFill(a: CheckRecord, b: CheckRecord, days: number): boolean {
  const liters = numberOf(a, 'fuelL');
  return (
    days <= 1 &&
    liters !== null &&
    close(liters, numberOf(b, 'fuelL'), Math.max(0.05, 0.01 * liters)) === true &&
    close(numberOf(a, 'odometerKm'), numberOf(b, 'odometerKm'), 5) !== false
  );
}

function isSameSample(a: CheckRecord, b: CheckRecord, days: number): boolean {
  const lab = a.record['labNumber'];
  if (typeof lab === 'string' && lab === b.record['labNumber']) return true;
  return (
    days === 0 &&
    numberOf(a, 'ironPpm') !== null &&
    numberOf(a, 'ironPpm') === numberOf(b, 'ironPpm') &&
    numberOf(a, 'kv100Mm2S') === numberOf(b, 'kv100Mm2S')
  );
}

/** True when two records of one unit, from different sources, tell of the same visit, fill or sample. */
export function isSameVisit(a: CheckRecord, b: CheckRecord): boolean {
  if (a.kind !== b.kind || a.source === b.source) return false;
  const days = Math.abs((dayNumber(a) ?? 0) - (dayNumber(b) ?? 0));
  if (days > sameDays) return false;
  if (a.kind === 'service') return isSameService(a, b, days);
  if (a.kind === 'fuel') return isSameFill(a, b, days);
  return a.kind === 'samples' && isSameSample(a, b, days);
}

/** Which of two records stays: the one already taken, else the fuller, else by content. */
function staysFirst(a: CheckRecord, b: CheckRecord, existing: ReadonlySet<CheckRecord>): number {
  return (
    Number(existing.has(b)) - Number(existing.has(a)) ||
    filledFields(b) - filledFields(a) ||
    (contentOf(a) < contentOf(b) ? -1 : 1)
  );
}

/** Exact repeats and fuzzy ones among a unit's records; only new records are reported. */
export function repeatsOf(
  existing: readonly CheckRecord[],
  fresh: readonly CheckRecord[],
): { exact: Repeat[]; sameVisit: Repeat[] } {
  const exact: Repeat[] = [];
  const byContent = new Map<string, CheckRecord>();
  for (const entry of existing) byContent.set(contentOf(entry), entry);
  const unique: CheckRecord[] = [];
  for (const entry of fresh) {
    const key = contentOf(entry);
    const first = byContent.get(key);
    if (first !== undefined) exact.push({ key: entry.key, of: first.key });
    else {
      byContent.set(key, entry);
      unique.push(entry);
    }
  }
  const sameVisit: Repeat[] = [];
  const taken = new Set(existing);
  const candidates = [...existing, ...unique].filter(
    ({ kind }) => kind === 'service' || kind === 'fuel' || kind === 'samples',
  );
  candidates.sort((a, b) => staysFirst(a, b, taken));
  const stay = new Map<number, CheckRecord[]>();
  for (const entry of candidates) {
    const day = dayNumber(entry) ?? 0;
    let twin: CheckRecord | undefined;
    for (let near = day - sameDays; near <= day + sameDays && twin === undefined; near += 1)
      twin = stay.get(near)?.find((other) => isSameVisit(entry, other));
    if (twin !== undefined && !taken.has(entry)) sameVisit.push({ key: entry.key, of: twin.key });
    else stay.set(day, [...(stay.get(day) ?? []), entry]);
  }
  return { exact, sameVisit };
}
