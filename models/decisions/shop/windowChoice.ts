/** A choice of a window: a visit in a lane, without a bay, or somewhere beyond the window. */
export interface WindowChoice {
  readonly visit: number;
  /** lane in which the visit begins; −1 = none of the window's */
  readonly lane: number;
  /** lanes of the window that it takes, and cells in each */
  readonly takes: readonly { readonly lane: number; readonly cells: number }[];
  readonly cents: number;
  /** what it is worth to have it there above its cost, cents: tells which patterns are looked at */
  readonly worthCents: number;
  /** whether its jobs must be done by some choice */
  readonly owed: boolean;
  /** the rest of a visit that begins before the window: it takes room and does no job here */
  readonly rest?: true;
  /** whether the plan in hand has it */
  readonly taken: boolean;
}
