import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeContext } from '../../server/context.ts';
import { pathsOf } from '../../server/config.ts';
import { assessStore } from '../../server/services/assessStore.ts';
import { openDemo } from '../../server/services/demoStore.ts';
import { ensureBuilt } from '../../server/launch.mjs';
import type { Figure } from './figure.ts';

const root = new URL('../..', import.meta.url).pathname.replace(/\/$/, '');

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
  await ensureBuilt();
  await startSeconds(4390);
  const starts = [await startSeconds(4391), await startSeconds(4392), await startSeconds(4393)].sort(
    (a, b) => a - b,
  );
  const folder = mkdtempSync(join(tmpdir(), 'sumpwise-bench-'));
  const paths = {
    ...pathsOf(root, root, join(folder, 'own.sqlite')),
    demoStore: join(folder, 'demo.sqlite'),
  };
  const context = makeContext(paths, () => openDemo(paths, () => undefined));
  const store = await context.current();
  const times: number[] = [];
  const worked: number[] = [];
  for (let turn = 0; turn < 5; turn += 1) {
    const begun = performance.now();
    const before = process.cpuUsage();
    // another horizon each time, so that no earlier result is found
    await assessStore(context, store, undefined, 300 + turn);
    times.push(performance.now() - begun);
    worked.push(process.cpuUsage(before).user / 1000);
  }
  await context.close();
  rmSync(folder, { recursive: true, force: true });
  times.sort((a, b) => a - b);
  worked.sort((a, b) => a - b);
  return [
    { name: 'start to listening, built', figure: starts[1], unit: 's', target: 'below 5 s' },
    { name: 'assess of the demo, 120 units', figure: times[2] / 1000, unit: 's', target: 'below 1 s' },
    { name: 'processor time of that', figure: worked[2] / 1000, unit: 's', target: 'below 1 s' },
  ];
}
