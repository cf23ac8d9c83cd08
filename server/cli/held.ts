import { userInfo } from 'node:os';
import type { Paths } from '../config.ts';
import { heldActions, type HeldRow } from '../../models/schema/intake.ts';
import { decideHeld } from '../services/decideHeld.ts';
import { groupHeld, listHeld } from '../store/heldRows.ts';
import { openStore } from '../store/openStore.ts';
import { printJson, Refusal } from './refusal.ts';

/** What the verb does: list, or decide. */
export const heldWords = ['list', ...heldActions] as const;
type HeldWord = (typeof heldWords)[number];

interface HeldOptions {
  readonly code?: string;
  readonly unit?: string;
  readonly state?: 'held' | 'accepted' | 'rejected';
  readonly set?: readonly string[];
  readonly by?: string;
  readonly json: boolean;
}

const everyRow = 1_000_000;

/** Lists rows that wait, or decides them: as they are, with the suggested or a given mend, not at all; or opens them again. */
export async function held(
  paths: Paths,
  action: HeldWord,
  ids: readonly string[],
  options: HeldOptions,
): Promise<void> {
  const rows = await listed(paths, action, ids, options);
  if (action === 'list') return;
  if (rows.length === 0) throw new Refusal('held: no row fits; "sumpwise held" lists what waits');
  const outcome = await decideHeld(
    paths.ownStore,
    { ids: rows.map(({ id }) => id), action, cells: cellsFrom(rows, action, options.set) },
    {
      by: options.by ?? `command line, ${userInfo().username}`,
      at: new Date().toISOString(),
      today: new Date().toISOString().slice(0, 10),
    },
  );
  if (options.json) printJson(outcome);
  else {
    process.stdout.write(`${outcome.done} of ${rows.length} rows decided.\n`);
    for (const { id, message } of outcome.refused) process.stdout.write(`  ${id}: ${message}\n`);
  }
  if (outcome.done === 0) throw new Refusal(`held: ${outcome.refused[0]?.message ?? 'nothing was decided'}`);
}

/** The rows meant; listed on stdout when that is all that is wanted. */
async function listed(
  paths: Paths,
  action: HeldWord,
  ids: readonly string[],
  options: HeldOptions,
): Promise<HeldRow[]> {
  const store = await openStore(paths.ownStore, { mustExist: true });
  try {
    const state = options.state ?? 'held';
    const wanted = new Set(ids.map(Number));
    for (const id of ids)
      if (!/^\d+$/.test(id)) throw new Refusal(`held: the number of a row is needed, got ${id}`);
    if (action !== 'list' && ids.length === 0 && options.code === undefined && options.unit === undefined)
      throw new Refusal('held: say which rows, by their numbers, --code or --unit');
    const pick = (from: HeldRow['state']): HeldRow[] =>
      listHeld(store, {
        code: options.code,
        unit: options.unit,
        state: from,
        after: 0,
        limit: everyRow,
      }).rows.filter(({ id }) => wanted.size === 0 || wanted.has(id));
    const from = options.state === undefined && action === 'reopen' ? 'decided' : state;
    const rows = from === 'decided' ? [...pick('accepted'), ...pick('rejected')] : pick(from);
    for (const id of wanted)
      if (!rows.some((row) => row.id === id))
        throw new Refusal(`held: row ${id} is not among those ${from}; "sumpwise held" lists them`);
    if (action !== 'list') return rows;
    const groups = groupHeld(store);
    if (options.json) printJson({ rows, groups });
    else say(rows, groups, state);
    return rows;
  } finally {
    await store.close();
  }
}

/** The cells of one row with `COLUMN=VALUE` written in. */
function cellsFrom(
  rows: readonly HeldRow[],
  action: HeldWord,
  set: readonly string[] | undefined,
): string[] | undefined {
  if (set === undefined || set.length === 0) return undefined;
  const [row] = rows;
  if (action !== 'mend' || row === undefined || rows.length > 1)
    throw new Refusal('--set: goes with mend and the number of one row');
  const cells = row.header.map((_, at) => row.cells[at] ?? '');
  for (const each of set) {
    const cut = each.indexOf('=');
    const at = row.header.findIndex((name) => name.toLowerCase() === each.slice(0, cut).trim().toLowerCase());
    if (cut < 1 || at < 0)
      throw new Refusal(`--set: COLUMN=VALUE with one of ${row.header.join(', ')}, got ${each}`);
    cells[at] = each.slice(cut + 1);
  }
  return cells;
}

function say(rows: readonly HeldRow[], groups: ReturnType<typeof groupHeld>, state: string): void {
  const lines =
    state === 'held'
      ? groups.map(
          ({ code, count, mendable }) =>
            `${count} × ${code}${mendable > 0 ? `, ${mendable} with a mend` : ''}`,
        )
      : [];
  for (const row of rows) {
    lines.push(
      `${row.id}\t${row.file}:${row.line}\t${row.unitNumber ?? ''}\t${row.code}\t${row.message}`,
      `\t${row.header.map((name, at) => `${name}=${row.cells[at] ?? ''}`).join(', ')}`,
    );
    if (row.mend !== null) lines.push(`\tsuggested: ${row.mend}`);
    for (const { action, by, at } of row.decisions) lines.push(`\t${action} by ${by}, ${at}`);
  }
  process.stdout.write(lines.length === 0 ? `No row is ${state}.\n` : `${lines.join('\n')}\n`);
}
