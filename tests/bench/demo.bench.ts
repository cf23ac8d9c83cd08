import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathsOf } from '../../server/config.ts';
import { openDemo } from '../../server/services/demoStore.ts';
import { ensureBuilt } from '../../server/launch.mjs';
import type { Figure } from './figure.ts';
import { growStore } from './growStore.ts';

const root = new URL('../..', import.meta.url).pathname.replace(/\/$/, '');

const turns = 12;
const grownTurns = 4;
/** Fleets of hundreds are worked through on two threads. */
const copies = 5;

/** The middle of the later half, as in a program that has been running. */
function warm(values: readonly number[]): number {
  const later = values.slice(Math.ceil(values.length / 2)).sort((a, b) => a - b);
  return later[Math.floor(later.length / 2)];
}

interface Program {
  readonly child: ChildProcess;
  /** s from starting it to its address on stdout */
  readonly seconds: number;
}

function start(port: number, store: string): Promise<Program> {
  return new Promise((resolve, reject) => {
    const begun = performance.now();
    const words = ['serve', '--port', String(port), '--store', store];
    const child = spawn(process.execPath, [join(root, 'server/launch.mjs'), ...words], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    child.stdout.on('data', (chunk: Buffer) => {
      if (chunk.toString().includes('http://'))
        resolve({ child, seconds: (performance.now() - begun) / 1000 });
    });
    child.on('error', reject);
  });
}

function end({ child }: Program): Promise<void> {
  return new Promise((resolve) => {
    child.on('exit', () => resolve());
    child.kill('SIGTERM');
  });
}

/** Seconds from asking the running program for an assessment that it has not made yet to the whole answer, turn by turn. */
async function assessSeconds(port: number, times: number): Promise<number[]> {
  const address = `http://127.0.0.1:${port}/api`;
  await (await fetch(`${address}/moves`)).text();
  const first = 40 + (Math.floor(Date.now() / 1000) % 1500);
  const taken: number[] = [];
  for (let turn = 0; turn < times; turn += 1) {
    const begun = performance.now();
    // another horizon each time, so that no earlier result is found
    const answer = await fetch(`${address}/assessment?horizonDays=${first + turn}`);
    await answer.text();
    if (!answer.ok) throw new Error(`the assessment must be given, got status ${answer.status}`);
    taken.push((performance.now() - begun) / 1000);
  }
  return taken;
}

/** The demo fleet in the program as it is started: listening, and assessment of 120 and of 600 units from nothing. */
export async function run(): Promise<readonly Figure[]> {
  const built = await ensureBuilt();
  const folder = mkdtempSync(join(tmpdir(), 'sumpwise-bench-'));
  const none = join(folder, 'none.sqlite');
  await end(await start(4390, none));
  const programs: Program[] = [];
  for (const port of [4391, 4392, 4393]) {
    const program = await start(port, none);
    programs.push(program);
    if (port !== 4393) await end(program);
  }
  const demo = await assessSeconds(4393, turns);
  await end(programs[2]);
  const paths = { ...pathsOf(root, built), demoStore: join(folder, 'grown.sqlite') };
  const store = await openDemo(paths, () => undefined);
  growStore(store, copies);
  await store.close();
  const grown = await start(4394, paths.demoStore);
  const shared = await assessSeconds(4394, grownTurns);
  await end(grown);
  rmSync(folder, { recursive: true, force: true });
  const starts = programs.map(({ seconds }) => seconds).sort((a, b) => a - b);
  return [
    { name: 'start to listening, built', figure: starts[1], unit: 's', target: 'below 5 s' },
    { name: 'assess of the demo, 120 units, running', figure: warm(demo), unit: 's', target: 'below 1 s' },
    { name: `assess of ${120 * copies} units, running`, figure: warm(shared), unit: 's', target: 'none' },
  ];
}
