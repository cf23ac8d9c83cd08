/** An expected refusal on the command line: exit status 1, the reason in one line on stderr. */
export class Refusal extends Error {}

/** Prints the one JSON document of a verb. */
export function printJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
}
