import { settings as settingsSchema, type Settings } from '../../models/schema/settings.ts';
import type { Store } from './openStore.ts';

/** The shop's rules, with defaults where nothing was changed. */
export async function loadSettings(store: Store): Promise<Settings> {
  const rows = await store.db
    .selectFrom('setting')
    .select(['name', 'value'])
    .where('name', 'like', 'rule.%')
    .execute();
  const stored = Object.fromEntries(rows.map((row) => [row.name.slice(5), JSON.parse(row.value) as unknown]));
  return settingsSchema.parse(stored);
}

/** Saves changed rules; the others stay. Raises the revision, since calls depend on them. */
export async function saveSettings(store: Store, changes: Partial<Settings>): Promise<Settings> {
  await store.db.transaction().execute(async (transaction) => {
    for (const [name, value] of Object.entries(changes))
      await transaction
        .insertInto('setting')
        .values({ name: `rule.${name}`, value: JSON.stringify(value) })
        .onConflict((conflict) => conflict.column('name').doUpdateSet({ value: JSON.stringify(value) }))
        .execute();
    await transaction
      .updateTable('revision')
      .set((row) => ({ number: row('number', '+', 1) }))
      .execute();
  });
  return loadSettings(store);
}

/** A fact about the store itself, e.g. the fixed day of the demo. */
export async function storeNote(store: Store, name: string): Promise<string | null> {
  const row = await store.db
    .selectFrom('setting')
    .select('value')
    .where('name', '=', `note.${name}`)
    .executeTakeFirst();
  return row?.value ?? null;
}

export async function setStoreNote(store: Store, name: string, value: string): Promise<void> {
  await store.db
    .insertInto('setting')
    .values({ name: `note.${name}`, value })
    .onConflict((conflict) => conflict.column('name').doUpdateSet({ value }))
    .execute();
}

/** Counts changes; what was computed for one revision holds until the next. */
export async function revisionOf(store: Store): Promise<number> {
  const row = await store.db.selectFrom('revision').select('number').executeTakeFirstOrThrow();
  return row.number;
}

/** Says that something changed, inside the transaction that changes it. */
export function raiseRevision(store: Store): void {
  store.sqlite.prepare('UPDATE revision SET number = number + 1').run();
}
