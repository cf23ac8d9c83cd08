import { runCommand } from './cli/command.ts';
import { pathsOf } from './config.ts';

/**
 * Entry of the built program.
 * @returns the exit status: 0 done, 1 refused, 2 wrong usage
 */
export async function main(
  words: readonly string[],
  place: { root: string; built: string },
): Promise<number> {
  // whoever reads the output may stop before its end, as `head` does
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  return runCommand(words, (store) => pathsOf(place.root, place.built, store));
}
