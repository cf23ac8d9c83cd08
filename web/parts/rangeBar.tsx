interface RangeBarProps {
  readonly low: number;
  readonly value: number;
  readonly high: number;
  /** the scale's ends */
  readonly from: number;
  readonly to: number;
  /** a limit drawn as a line */
  readonly limit?: number;
  readonly words: string;
}

/** A range drawn before its point: bar from low to high, tick at the estimate. */
export function RangeBar({ low, value, high, from, to, limit, words }: RangeBarProps) {
  const place = (x: number): number => Math.max(0, Math.min(100, ((x - from) / (to - from)) * 100));
  return (
    <svg class="range-bar" viewBox="0 0 100 10" preserveAspectRatio="none" role="img" aria-label={words}>
      <line x1="0" x2="100" y1="9.5" y2="9.5" class="axis" />
      <rect x={place(low)} width={Math.max(0.8, place(high) - place(low))} y="3" height="4.5" class="span" />
      <rect x={Math.max(0, place(value) - 0.6)} width="1.2" y="0.5" height="9.5" class="tick" />
      {limit !== undefined && <line x1={place(limit)} x2={place(limit)} y1="0" y2="10" class="limit" />}
    </svg>
  );
}
