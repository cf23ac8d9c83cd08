import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeContext } from '../../server/context.ts';
import { pathsOf } from '../../server/config.ts';
import { assessStore } from '../../server/services/assessStore.ts';
import { endHand } from '../../server/services/sharedPass.ts';
import { openDemo } from '../../server/services/demoStore.ts';
import { ensureBuilt } from '../../server/launch.mjs';
import type { Figure } from './figure.ts';

const root = new URL('../..', import.meta.url).pathname.replace(/\/$/, '');

const turns = 9;

/** The middle of the later turns, as in a program that has been running. */
const warm = (values: readonly number[]): number => [...values.slice(turns - 5)].sort((a, b) => a - b)[2];

/** Seconds from starting the program to its address on stdout. */
function startSeconds(port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const begun = performance.now();
    const child = spawn(
      process.execPath,
      [join(root, 'server/launch.mjs'), 'serve', '--port', String(port)],
      {
        stdio: ['ignore', 'pipe', 'inherit'],
      },
    );
    child.stdout.on('data', (chunk: Buffer) => {
      if (!chunk.toString().includes('http://')) return;
      child.kill('SIGTERM');
      resolve((performance.now() - begun) / 1000);
    });
    child.on('error', reject);
  });
}

/** The demo fleet: start of the program, and assessment of 120 units. */
export async function run(): Promise<readonly Figure[]> {
  const built = await ensureBuilt();
  await startSeconds(4390);
  const starts = [await startSeconds(4391), await startSeconds(4392), await startSeconds(4393)].sort(
    (a, b) => a - b,
  );
  const folder = mkdtempSync(join(tmpdir(), 'sumpwise-bench-'));
  const paths = {
    ...pathsOf(root, built, join(folder, 'own.sqlite')),
    demoStore: join(folder, 'demo.sqlite'),
  };
  const figures: Figure[] = [];
  for (const shared of [true, false]) {
    const context = makeContext(paths, () => openDemo(paths, () => undefined), { shared });
    const store = await context.current();
    const times: number[] = [];
    const worked: number[] = [];
    for (let turn = 0; turn < turns; turn += 1) {
      const begun = performance.now();
      const before = process.cpuUsage();
      // another horizon each time, so that no earlier result is found
      await assessStore(context, store, undefined, 300 + turn + (shared ? 0 : turns));
      times.push((performance.now() - begun) / 1000);
      worked.push(process.cpuUsage(before).user / 1e6);
    }
    await endHand();
    await context.close();
    const name = `assess of the demo, 120 units, on ${shared ? 'two threads' : 'one thread'}`;
    figures.push(
      { name, figure: warm(times), unit: 's', target: shared ? 'below 1 s' : 'none' },
      { name: `${name}: the first time`, figure: times[0], unit: 's', target: 'none' },
      { name: `${name}: processor time`, figure: warm(worked), unit: 's', target: 'none' },
    );
  }
  rmSync(folder, { recursive: true, force: true });
  return [
    { name: 'start to listening, built', figure: starts[1], unit: 's', target: 'below 5 s' },
    ...figures,
  ];
}
