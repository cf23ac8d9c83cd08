import { baseRate } from './baseRate.ts';
import type { Forecaster } from './hindcastTypes.ts';
import { odometerOnly } from './odometerOnly.ts';
import { pastBookInterval } from './pastBookInterval.ts';

/** Simple rules that a forecast has to beat to be worth anything. */
export const rivals = { baseRate, odometerOnly, pastBookInterval } as const satisfies Record<
  string,
  Forecaster
>;
