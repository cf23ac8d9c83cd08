import { readFileSync } from 'node:fs';
import { conditionCoefficients } from '../../models/oil/conditionCoefficients.ts';
import { oilCondition } from '../../models/oil/condition.ts';
import { advanceCharge, slotCount, startCharge } from '../../models/oil/conditionKernel.ts';
import { unitRates } from '../../models/oil/exposure.ts';
import { monthByMonth } from '../../models/oil/monthByMonth.ts';
import { recommendedInterval } from '../../models/oil/recommendedInterval.ts';
import { coefficientFile, coefficientValues } from '../../models/schema/coefficient.ts';
import { checkCases } from '../models/oil/checkCases.ts';
import { steppedLoop } from '../models/oil/referenceLoop.ts';

const file = (name: string) =>
  coefficientFile.parse(
    JSON.parse(
      readFileSync(new URL(`../../data/catalog/${name}-coefficients.json`, import.meta.url), 'utf8'),
    ),
  );

/** Fastest of several rounds, µs per call: what the code needs when nothing else runs. */
function microseconds(rounds: number, calls: number, work: (i: number) => void): number {
  let best = Infinity;
  for (let round = 0; round < rounds; round++) {
    const from = performance.now();
    for (let i = 0; i < calls; i++) work(i);
    best = Math.min(best, ((performance.now() - from) * 1000) / calls);
  }
  return best;
}

/** Oil condition of one interval, alone and in the form for fleet runs, and the interval asked for. */
export async function run(): Promise<{ name: string; figure: number; unit: string; target: string }[]> {
  const coefficients = coefficientValues([file('oil'), file('wear')]);
  const c = conditionCoefficients(coefficients);
  const slots = new Float64Array(slotCount);
  const pick = (i: number) => checkCases[i % checkCases.length];
  const kernel = microseconds(40, 5000, (i) => {
    const { exposure, engine, fill } = pick(i);
    startCharge(slots, fill);
    advanceCharge(slots, exposure, engine, fill, unitRates, c);
  });
  const whole = microseconds(20, 2000, (i) => {
    const { exposure, engine, fill } = pick(i);
    oilCondition(exposure, engine, fill, unitRates, coefficients);
  });
  const stepped = microseconds(5, 50, (i) => {
    const { exposure, engine, fill } = pick(i);
    steppedLoop(exposure, engine, fill, unitRates, coefficients);
  });
  const ambient = [-2, 0, 4, 9, 14, 18, 20, 19, 15, 10, 4, 0];
  const book = {
    intervalKm: 10_000,
    intervalMonths: 12,
    severeIntervalKm: 6000,
    severeIntervalMonths: 6,
    hoursLimitH: null,
  };
  const months = checkCases.map((check) => monthByMonth(check.exposure, ambient, 20_000, 24));
  const interval = microseconds(5, 100, (i) => {
    const { engine, fill } = pick(i);
    const coming = months[i % months.length];
    recommendedInterval({ coming, engine, fill, rates: unitRates, book, severe: false }, coefficients);
  });
  return [
    {
      name: 'Oil condition of an interval, form for fleet runs',
      figure: kernel,
      unit: 'µs',
      target: 'below 30',
    },
    { name: 'Oil condition of an interval, with its result', figure: whole, unit: 'µs', target: 'below 30' },
    { name: 'the same by 400 steps', figure: stepped, unit: 'µs', target: 'none, for comparison' },
    { name: 'Recommended interval over 24 months', figure: interval, unit: 'µs', target: 'below 3000' },
  ];
}
