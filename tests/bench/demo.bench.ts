import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeContext } from '../../server/context.ts';
import { pathsOf, type Paths } from '../../server/config.ts';
import { assessStore } from '../../server/services/assessStore.ts';
import { endHand } from '../../server/services/sharedPass.ts';
import { openDemo } from '../../server/services/demoStore.ts';
import { openStore, type Store } from '../../server/store/openStore.ts';
import { ensureBuilt } from '../../server/launch.mjs';
import type { Figure } from './figure.ts';

const root = new URL('../..', import.meta.url).pathname.replace(/\/$/, '');

const turns = 9;
const grownTurns = 4;
/** Fleets of hundreds are worked through on two threads. */
const copies = 5;

/** The middle of the later turns, as in a program that has been running. */
function warm(values: readonly number[]): number {
  const later = values.slice(Math.ceil(values.length / 2)).sort((a, b) => a - b);
  return later[Math.floor(later.length / 2)];
}

/** Every unit of a store several times over, under numbers of their own. */
function grow({ sqlite }: Store, times: number): void {
  sqlite.transaction(() => {
    for (const kind of ['units', 'readings', 'fuel', 'service', 'samples', 'findings', 'codes']) {
      const columns = (sqlite.pragma(`table_info(${kind})`) as { name: string }[])
        .map(({ name }) => name)
        .filter((name) => name !== 'id');
      const values = columns.map((name) =>
        ['unit_number', 'record_id', 'vin'].includes(name) ? `${name} || '-' || @copy` : name,
      );
      const insert = sqlite.prepare(
        `INSERT INTO ${kind} (${columns.join(', ')}) SELECT ${values.join(', ')} FROM ${kind} WHERE id <= @last`,
      );
      const last = sqlite.prepare(`SELECT max(id) FROM ${kind}`).pluck().get();
      for (let copy = 1; copy < times; copy += 1) insert.run({ copy: String(copy), last });
    }
    sqlite.prepare('UPDATE revision SET number = number + 1').run();
  })();
}

/** Seconds that a store's assessment takes, worked out anew each turn. */
async function assessed(
  paths: Paths,
  shared: boolean,
  times: number,
): Promise<{ first: number; warm: number; processor: number }> {
  const context = makeContext(paths, () => openDemo(paths, () => undefined), { shared });
  const store = await context.current();
  const taken: number[] = [];
  const worked: number[] = [];
  for (let turn = 0; turn < times; turn += 1) {
    const begun = performance.now();
    const before = process.cpuUsage();
    // another horizon each time, so that no earlier result is found
    await assessStore(context, store, undefined, 300 + turn + (shared ? 50 : 0));
    taken.push((performance.now() - begun) / 1000);
    worked.push(process.cpuUsage(before).user / 1e6);
  }
  await endHand();
  await context.close();
  return { first: taken[0], warm: warm(taken), processor: warm(worked) };
}

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
  const demo = await assessed(paths, false, turns);
  const store = await openStore(paths.demoStore);
  grow(store, copies);
  await store.close();
  const alone = await assessed(paths, false, grownTurns);
  const shared = await assessed(paths, true, grownTurns);
  rmSync(folder, { recursive: true, force: true });
  const grown = `assess of ${120 * copies} units`;
  return [
    { name: 'start to listening, built', figure: starts[1], unit: 's', target: 'below 5 s' },
    { name: 'assess of the demo, 120 units', figure: demo.warm, unit: 's', target: 'below 1 s' },
    { name: 'processor time of that', figure: demo.processor, unit: 's', target: 'none' },
    { name: 'the same, the first time in a program', figure: demo.first, unit: 's', target: 'none' },
    { name: `${grown} on two threads`, figure: shared.warm, unit: 's', target: 'none' },
    { name: 'share of the time on one thread', figure: shared.warm / alone.warm, unit: '', target: '0.7' },
  ];
}
