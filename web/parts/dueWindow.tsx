import { date, daysBetween } from '../format/dates.ts';

interface DueWindowProps {
  readonly asOf: string;
  readonly earliest: string | null;
  readonly due: string | null;
  readonly latest: string | null;
}

const shownDays = 13 * 7;
const pastDays = 14;

/** Earliest to latest due day as a bar with a tick at the middle, on the same 13-week axis for every unit. */
export function DueWindow({ asOf, earliest, due, latest }: DueWindowProps) {
  if (due === null) return <span class="muted">due date not known</span>;
  const place = (iso: string): number => {
    const days = Math.max(-pastDays, Math.min(shownDays, daysBetween(asOf, iso)));
    return ((days + pastDays) / (shownDays + pastDays)) * 100;
  };
  const from = place(earliest ?? due);
  const to = place(latest ?? due);
  const today = place(asOf);
  const words = `${date(due)}${earliest !== null && latest !== null ? `, between ${date(earliest)} and ${date(latest)}` : ''}`;
  return (
    <span class="due-window">
      <svg viewBox="0 0 100 10" preserveAspectRatio="none" role="img" aria-label={words}>
        <line x1="0" x2="100" y1="9.5" y2="9.5" class="axis" />
        <line x1={today} x2={today} y1="0" y2="10" class="today" />
        <rect x={from} width={Math.max(0.8, to - from)} y="3.5" height="4" class="span" />
        <rect x={Math.max(0, place(due) - 0.5)} width="1" y="1" height="9" class="tick" />
      </svg>
      <span class="due-words">{date(due)}</span>
    </span>
  );
}
