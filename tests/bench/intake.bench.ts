import { spawn } from 'node:child_process';
import { createReadStream, createWriteStream, mkdtempSync, rmSync } from 'node:fs';
import { once } from 'node:events';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { parse } from 'csv-parse';
import { isoFromDay } from '../../models/schema/day.ts';
import { ensureBuilt } from '../../server/launch.mjs';
import type { Figure } from './figure.ts';

const root = new URL('../..', import.meta.url).pathname.replace(/\/$/, '');
const units = 5000;
const works = [
  'LOF',
  'oil_change',
  'PM-A svc + top up 1qt',
  'top up 1 qt',
  'filter',
  'brake insp',
  '"PM-B, top up"',
];
const header =
  'unit_number,serviced_on,odometer_km,engine_hours_h,work,oil_grade,oil_category,oil_l,filter_changed,cost,shop,note';

/** Service rows of many units, visit after visit, as one export would hold them. */
async function writeService(file: string, rows: number): Promise<void> {
  const out = createWriteStream(file);
  out.write(`${header}\n`);
  let seed = 7;
  const random = (): number => (seed = (Math.imul(seed, 1103515245) + 12345) >>> 0) / 4294967296;
  const visits = Math.ceil(rows / units);
  let lines: string[] = [];
  for (let row = 0; row < rows; row += 1) {
    const unit = row % units;
    const day = Math.floor((Math.floor(row / units) + 0.6 * random()) * (5400 / visits));
    const work = works[Math.floor(random() * works.length)];
    lines.push(
      `U${10000 + unit},${isoFromDay(14612 + day)},${day * 60 + (unit % 50)},${(day * 1.5).toFixed(1)},${work},5W-30,API SP,5.2,yes,${(40 + random() * 60).toFixed(2)},North shop,`,
    );
    if (lines.length < 20_000 && row < rows - 1) continue;
    if (!out.write(`${lines.join('\n')}\n`)) await once(out, 'drain');
    lines = [];
  }
  out.end();
  await once(out, 'finish');
}

async function writeUnits(file: string): Promise<void> {
  const out = createWriteStream(file);
  out.write('unit_number,in_service_on,in_service_odometer_km\n');
  for (let unit = 0; unit < units; unit += 1) out.write(`U${10000 + unit},2010-01-01,0\n`);
  out.end();
  await once(out, 'finish');
}

/** The least that any intake must do: csv-parse and one prepared insert of the cells. */
async function floorSeconds(file: string, store: string): Promise<number> {
  const begun = performance.now();
  const sqlite = new BetterSqlite(store);
  sqlite.pragma('journal_mode = WAL');
  sqlite.pragma('synchronous = FULL');
  const columns = header.split(',');
  sqlite.exec(`CREATE TABLE row (${columns.map((name) => `${name} TEXT`).join(', ')}); BEGIN`);
  const insert = sqlite.prepare(`INSERT INTO row VALUES (${columns.map(() => '?').join(', ')})`);
  for await (const cells of createReadStream(file).pipe(parse({ from_line: 2 }))) insert.run(cells);
  sqlite.exec('COMMIT');
  sqlite.close();
  return (performance.now() - begun) / 1000;
}

/** Seconds and peak memory of `sumpwise intake` of its own process, start included. */
async function intakeFigures(
  files: readonly string[],
  store: string,
): Promise<{ seconds: number; peakMb: number }> {
  const tell = `process.on('exit', () => process.stderr.write('peak ' + process.resourceUsage().maxRSS + '\\n'))`;
  const begun = performance.now();
  const child = spawn(
    process.execPath,
    [
      '--import',
      `data:text/javascript,${encodeURIComponent(tell)}`,
      join(root, 'server/launch.mjs'),
      'intake',
      ...files,
      '--store',
      store,
    ],
    { stdio: ['ignore', 'ignore', 'pipe'] },
  );
  let said = '';
  child.stderr.on('data', (text: Buffer) => (said += text.toString()));
  const [status] = (await once(child, 'close')) as [number];
  const seconds = (performance.now() - begun) / 1000;
  const peak = /peak (\d+)/.exec(said)?.[1];
  if (status !== 0 || peak === undefined) throw new Error(`intake did not succeed: ${said}`);
  return { seconds, peakMb: Number(peak) / 1024 };
}

/** 1 000 000 service rows (BENCH_ROWS for fewer) from CSV to committed, against the floor in the same run. */
export async function run(): Promise<readonly Figure[]> {
  await ensureBuilt();
  const rows = Number(process.env.BENCH_ROWS ?? 1_000_000);
  const folder = mkdtempSync(join(tmpdir(), 'sumpwise-bench-'));
  try {
    const [unitFile, file] = [join(folder, 'units.csv'), join(folder, 'service.csv')];
    await writeUnits(unitFile);
    await writeService(file, rows);
    // before and after, so that a machine that speeds up or slows down shows on both sides
    const before = await floorSeconds(file, join(folder, 'floor-1.sqlite'));
    const { seconds, peakMb } = await intakeFigures([unitFile, file], join(folder, 'store.sqlite'));
    const after = await floorSeconds(file, join(folder, 'floor-2.sqlite'));
    const floor = (before + after) / 2;
    return [
      { name: `intake of ${rows} service rows`, figure: seconds, unit: 's', target: 'see the ratio' },
      { name: 'floor: csv-parse and one prepared insert', figure: floor, unit: 's', target: 'see the ratio' },
      { name: 'floor over intake', figure: floor / seconds, unit: '', target: 'at least 0.4' },
      { name: 'peak memory of the intake', figure: peakMb, unit: 'MB', target: 'below 600 MB' },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
