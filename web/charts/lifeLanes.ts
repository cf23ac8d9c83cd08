import { dayFromIso, isoFromDay } from '../../models/schema/day.ts';
import type { RecordLink, UnitStory } from '../../models/schema/story.ts';

/** Everything that one record (or one day without a record) says of a unit. */
export interface LifeMark {
  readonly on: string;
  /** kind of the record, or `none` */
  readonly kind: string;
  readonly words: readonly string[];
  readonly link: RecordLink | null;
}

/** The mark on the lane with its place; row 0 is the upper one. */
export interface PlacedMark extends LifeMark {
  readonly x: number;
  readonly row: number;
}

/** One mark for each record that speaks, oldest first; what no record says is left out. */
export function lifeMarks(evidence: UnitStory['evidence']): LifeMark[] {
  const marks = new Map<string, { on: string; kind: string; words: string[]; link: RecordLink | null }>();
  for (const entry of evidence) {
    if (entry.link === null) continue;
    const key = `${entry.link.kind}${entry.link.id}`;
    const mark = marks.get(key) ?? { on: entry.on, kind: entry.link.kind, words: [], link: entry.link };
    mark.words.push(entry.words);
    marks.set(key, mark);
  }
  return [...marks.values()].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
}

/** Puts marks that would lie on each other into the next row. */
export function placeMarks(
  marks: readonly LifeMark[],
  place: (iso: string) => number,
  size: number,
  rows: number,
): PlacedMark[] {
  const ends: number[] = Array.from({ length: rows }, () => -Infinity);
  return marks.map((mark) => {
    const x = place(mark.on);
    const free = ends.findIndex((end) => end <= x - size);
    const row = free >= 0 ? free : ends.indexOf(Math.min(...ends));
    ends[row] = x;
    return { ...mark, x, row };
  });
}

/** The axis that all lanes share. */
export interface LifeAxis {
  readonly width: number;
  readonly years: readonly number[];
  place(iso: string): number;
}

const pixelsPerYear = 90;

/** The axis from the first charge to the as-of day, at least as wide as its frame. */
export function lifeAxis(firstOn: string, asOf: string, frame: number): LifeAxis {
  const first = dayFromIso(firstOn);
  const last = Math.max(dayFromIso(asOf), first + 30);
  const width = Math.max(frame, Math.round(((last - first) / 365.25) * pixelsPerYear));
  const years: number[] = [];
  const end = Number(isoFromDay(last).slice(0, 4));
  for (let year = Number(isoFromDay(first).slice(0, 4)) + 1; year <= end; year += 1) years.push(year);
  return {
    width,
    years,
    place: (iso) => Math.max(0, Math.min(width, ((dayFromIso(iso) - first) / (last - first)) * width)),
  };
}
