import { existsSync } from 'node:fs';
import type { HindcastResult, HindcastScore } from '../../models/schema/hindcastEndpoints.ts';
import type { Paths } from '../config.ts';
import { makeContext } from '../context.ts';
import { openDemo } from '../services/demoStore.ts';
import { hindcastQuestion, hindcastStore } from '../services/hindcastStore.ts';
import { printJson, Refusal } from './refusal.ts';

interface HindcastWords {
  readonly origins: readonly string[];
  readonly horizonDays?: number;
  readonly json: boolean;
}

/** Shows on a terminal how many origins are done; elsewhere nothing. */
function bar(done: number, total: number): void {
  if (process.stderr.isTTY !== true) return;
  const width = 20;
  const full = Math.round((width * done) / total);
  process.stderr.write(
    `\rWorking through the origins  [${'#'.repeat(full)}${'.'.repeat(width - full)}] ${done} of ${total}${done === total ? '\n' : ''}`,
  );
}

/** Predicts from each origin with what was known then, and prints how it came out beside simple rivals. */
export async function hindcast(paths: Paths, options: HindcastWords): Promise<void> {
  if (!existsSync(paths.ownStore))
    throw new Refusal(
      `store: ${paths.ownStore} does not exist; bring records in first with "sumpwise intake FILE…"`,
    );
  const context = makeContext(paths, () => openDemo(paths, () => undefined));
  try {
    const store = await context.own();
    const question = await hindcastQuestion(context, store, options);
    if ('refused' in question) throw new Refusal(`--origins: ${question.refused}`);
    const result = await hindcastStore(context, store, question, bar);
    if (options.json) printJson(result);
    else say(result);
  } finally {
    await context.close();
  }
}

const digits = (value: number | null, places: number): string =>
  value === null ? 'not known' : value.toFixed(places);

function line(name: string, score: HindcastScore): string {
  const limits =
    score.observedOverExpected === null
      ? 'not known'
      : `${digits(score.observedOverExpected, 2)} (${digits(score.observedOverExpectedLow, 2)} to ${digits(score.observedOverExpectedHigh, 2)})`;
  const area = score.auc === null ? 'not judged' : `${digits(score.auc, 3)} ± ${digits(score.aucSe, 3)}`;
  return `  ${name}: said ${digits(score.expected, 1)}, happened ${digits(score.events, 1)}, ratio ${limits}, Brier ${digits(score.brier, 4)}, log score ${digits(score.logScore, 4)}, area ${area}`;
}

function say(result: HindcastResult): void {
  const table = (scores: HindcastResult['overall']): string[] => [
    line('Sumpwise', scores.sumpwise),
    line('base rate', scores.baseRate),
    line('odometer only', scores.odometerOnly),
    line('past book interval', scores.pastBookInterval),
    ...scores.sumpwise.notes.map((note) => `  ${note}`),
  ];
  const lines = result.origins.flatMap((one) => [
    `From ${one.origin}, ${one.observedDays} days watched, ${one.sumpwise.units} units`,
    ...table(one),
  ]);
  process.stdout.write(
    `${[...lines, 'All origins', ...table(result.overall), ...result.comparisons, ...result.messages].join('\n')}\n`,
  );
}
