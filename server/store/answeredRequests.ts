import type { Store } from './openStore.ts';

export interface Answer {
  readonly key: string;
  readonly route: string;
  readonly status: number;
  readonly body: string;
  readonly at: string;
}

/** The answer given to this key before, or null. */
export async function findAnswer(store: Store, key: string): Promise<Answer | null> {
  const row = await store.db
    .selectFrom('answered_request')
    .selectAll()
    .where('key', '=', key)
    .executeTakeFirst();
  return row === undefined
    ? null
    : { key, route: row.route, status: row.status, body: row.body, at: row.made_at };
}

/** Keeps an answer for its key; the newest 1000 stay. */
export async function keepAnswer(store: Store, answer: Answer): Promise<void> {
  await store.db
    .insertInto('answered_request')
    .values({
      key: answer.key,
      route: answer.route,
      status: answer.status,
      body: answer.body,
      made_at: answer.at,
    })
    .onConflict((conflict) => conflict.doNothing())
    .execute();
  store.sqlite
    .prepare(
      'DELETE FROM answered_request WHERE key NOT IN (SELECT key FROM answered_request ORDER BY made_at DESC LIMIT 1000)',
    )
    .run();
}
