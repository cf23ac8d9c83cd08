/** One timed figure; ratios and times are of this run on this machine. */
export interface Figure {
  readonly name: string;
  readonly figure: number;
  readonly unit: string;
  /** what it is meant to reach, in words */
  readonly target: string;
}
