/** What can be asked of a whole fleet. */
export type AnswerName =
  | 'assessment'
  | 'list'
  | 'moves'
  | 'promise'
  | 'rollups'
  | 'samples'
  | 'policy'
  | 'policyTrial'
  | 'spend'
  | 'budgetCheck'
  | 'planInputs'
  | 'learned';

/** A question whose answer needs every unit: worked out once, kept as text until records, rules or program change. */
export interface FleetAsk {
  readonly name: AnswerName;
  /** ISO date; left out: the store's own day */
  readonly asOf?: string;
  /** d; left out: that of the settings */
  readonly horizonDays?: number;
  /** what else is asked, by name */
  readonly more?: Readonly<Record<string, string | number>>;
}
