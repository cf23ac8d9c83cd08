import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { assessment } from '../../models/schema/assessment.ts';
import { pathsOf } from '../../server/config.ts';
import { ownFleet, writeFiles } from './ownFleet.ts';

const root = new URL('../..', import.meta.url).pathname;
const files = writeFiles(ownFleet);
const folder = dirname(files[0].path);
const store = join(folder, 'store.sqlite');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the command line as a user does, from another folder. */
function sumpwise(...words: string[]) {
  const ran = spawnSync(process.execPath, [join(root, 'server/launch.mjs'), ...words], {
    cwd: folder,
    encoding: 'utf8',
    timeout: 100_000,
  });
  return { status: ran.status, out: ran.stdout, err: ran.stderr };
}

describe('the command line', () => {
  test('a store is the same by its whole path and from its folder', () => {
    const paths = pathsOf(root, root, 'own/store.sqlite');
    expect(paths.ownStore).toBe(join(process.cwd(), 'own/store.sqlite'));
    expect(pathsOf(root, root, 'postgres://host/name').ownStore).toBe('postgres://host/name');
  });

  test('whoever stops reading before the end gets no fault', async () => {
    const child = spawn(process.execPath, [join(root, 'server/launch.mjs'), 'plan', '--help']);
    child.stdout.destroy();
    let said = '';
    child.stderr.on('data', (text: Buffer) => (said += text.toString()));
    const [status] = (await once(child, 'close')) as [number];
    expect(said).not.toContain('EPIPE');
    expect(status).toBe(0);
  });

  test('intake, assess, verify and undo, with one JSON document on stdout', () => {
    const taken = sumpwise(
      'intake',
      ...files.map((file) => file.name),
      '--store',
      store,
      '--json',
      '--held',
      'held.csv',
    );
    expect(taken.status, taken.err).toBe(0);
    const report = JSON.parse(taken.out) as { batch: string; committed: boolean; files: { kind: string }[] };
    expect(report.committed).toBe(true);
    expect(report.files.map((file) => file.kind)).toContain('service');
    expect(readFileSync(join(folder, 'held.csv'), 'utf8')).toBe('file,line,code,message,row\n');

    const assessed = sumpwise(
      'assess',
      '--as-of',
      '2024-06-01',
      '--store',
      store,
      '--json',
      '--csv',
      'out.csv',
    );
    expect(assessed.status, assessed.err).toBe(0);
    expect(assessment.parse(JSON.parse(assessed.out)).units).toHaveLength(10);
    expect(readFileSync(join(folder, 'out.csv'), 'utf8').trim().split('\n')).toHaveLength(11);
    const one = sumpwise('assess', '--as-of', '2024-06-01', '--store', store, '--json', '--unit', 'b1');
    expect((JSON.parse(one.out) as { units: unknown[] }).units).toHaveLength(1);
    expect(sumpwise('assess', '--as-of', '2024-06-01', '--store', store).out).toContain('B2\tstop');

    const verified = sumpwise('verify', '--store', store, '--json');
    expect(JSON.parse(verified.out)).toMatchObject({ ok: true, problems: [] });
    const undone = sumpwise('undo', report.batch, '--store', store, '--json');
    expect(JSON.parse(undone.out)).toMatchObject({ batch: report.batch });
    expect(sumpwise('undo', report.batch, '--store', store).status).toBe(1);
  });

  test('refusals are exit status 1 with one line on stderr; wrong usage is 2', () => {
    const refused = (words: string[], line: RegExp) => {
      const ran = sumpwise(...words);
      expect(ran.status).toBe(1);
      expect(ran.err.trim().split('\n').at(-1)).toMatch(line);
    };
    refused(['assess', '--store', join(folder, 'none.sqlite')], /does not exist; bring records in/);
    refused(['intake', 'no-such-file.csv', '--store', store], /there is no such file/);
    refused(['serve', '--host', '0.0.0.0'], /needs accounts/);
    refused(['verify', '--store', 'postgres://localhost/x'], /not supported yet/);
    for (const words of [
      ['assess', '--as-of', '31.3.2024'],
      ['nonsense'],
      ['intake'],
      ['assess', '--horizon-days', 'x'],
    ])
      expect(sumpwise(...words).status, words.join(' ')).toBe(2);
  });
});
