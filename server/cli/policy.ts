import { existsSync } from 'node:fs';
import type { Paths } from '../config.ts';
import { makeContext } from '../context.ts';
import type { PolicyDocument } from '../../models/schema/policyDocument.ts';
import { openDemo } from '../services/demoStore.ts';
import { policyOf } from '../services/policyOf.ts';
import { printJson, Refusal } from './refusal.ts';

interface PolicyWords {
  readonly duty?: string;
  readonly asOf?: string;
  readonly json: boolean;
}

/** Prints the cheapest drain interval per duty group. */
export async function policy(paths: Paths, options: PolicyWords): Promise<void> {
  if (!existsSync(paths.ownStore))
    throw new Refusal(
      `store: ${paths.ownStore} does not exist; bring records in first with "sumpwise intake FILE…"`,
    );
  const context = makeContext(paths, () => openDemo(paths, () => undefined));
  try {
    let result = await policyOf(context, await context.own(), options.asOf);
    if (options.duty !== undefined) {
      const wanted = options.duty.trim().toLowerCase();
      const duties = result.duties.filter(({ duty }) => duty.toLowerCase() === wanted);
      if (duties.length === 0)
        throw new Refusal(
          `--duty: there is no duty group ${options.duty}; there are: ${result.duties.map(({ duty }) => duty).join(', ')}`,
        );
      result = { ...result, duties };
    }
    if (options.json) printJson(result);
    else say(result);
  } finally {
    await context.close();
  }
}

function say({ asOf, currency, duties, notes }: PolicyDocument): void {
  const money = (cents: number | null): string => (cents === null ? 'not known' : (cents / 100).toFixed(2));
  const lines = [
    `As of ${asOf}; costs in ${currency} per 1000 km`,
    ...duties.flatMap((entry) => [
      `${entry.duty}: now ${entry.currentIntervalKm ?? 'not known'} km at ${money(entry.centsPer1000Km.current)}; cheapest ${entry.bestIntervalKm} km (${entry.bestIntervalRangeKm.low} to ${entry.bestIntervalRangeKm.high}) at ${money(entry.centsPer1000Km.best)}; flat from ${entry.flatFromKm} to ${entry.flatToKm} km; to set: ${entry.recommendedIntervalKm} km`,
      ...(entry.adopted === null
        ? []
        : [
            `  adopted: ${entry.adopted.intervalKm} km by ${entry.adopted.adoptedBy} on ${entry.adopted.adoptedOn}`,
          ]),
      ...entry.notes.map((note) => `  ${note}`),
      `  ${entry.sampling.words}`,
    ]),
    ...notes,
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
}
