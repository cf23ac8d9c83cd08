import { existsSync, writeFileSync } from 'node:fs';
import type { Paths } from '../config.ts';
import { makeContext } from '../context.ts';
import { assessmentCsv } from '../files/assessmentCsv.ts';
import type { Assessment } from '../../models/schema/assessment.ts';
import { openDemo } from '../services/demoStore.ts';
import { assessStore } from '../services/assessStore.ts';
import { endHand } from '../services/sharedPass.ts';
import { printJson, Refusal } from './refusal.ts';

interface AssessWords {
  readonly asOf?: string;
  readonly horizonDays?: number;
  readonly unit?: string;
  readonly csv?: string;
  readonly json: boolean;
  readonly store?: string;
}

/** Prints estimates and calls for every unit, or for one. */
export async function assess(paths: Paths, options: AssessWords): Promise<void> {
  if (!existsSync(paths.ownStore))
    throw new Refusal(
      `store: ${paths.ownStore} does not exist; bring records in first with "sumpwise intake FILE…"`,
    );
  const context = makeContext(paths, () => openDemo(paths, () => undefined), { shared: true });
  try {
    let result = await assessStore(context, await context.own(), options.asOf, options.horizonDays);
    if (options.unit !== undefined) {
      const wanted = options.unit.trim().toLowerCase();
      const units = result.units.filter((unit) => unit.unitNumber.toLowerCase() === wanted);
      if (units.length === 0)
        throw new Refusal(`--unit: there is no unit ${options.unit} in service on ${result.asOf}`);
      result = { ...result, units };
    }
    if (options.csv !== undefined) writeFileSync(options.csv, assessmentCsv(result));
    if (options.json) printJson(result);
    else say(result);
  } finally {
    await endHand();
    await context.close();
  }
}

function say(result: Assessment): void {
  const lines = [`As of ${result.asOf}: ${result.units.length} units`];
  for (const unit of result.units)
    lines.push(
      `${unit.unitNumber}\t${unit.call}\t${unit.oil?.dueOn ?? 'due date not known'}\t${unit.reasons[0]}`,
    );
  lines.push(...result.messages);
  process.stdout.write(`${lines.join('\n')}\n`);
}
