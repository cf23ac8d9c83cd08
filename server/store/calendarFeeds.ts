import { createHash, randomBytes } from 'node:crypto';
import type { Store } from './openStore.ts';

const hashOf = (token: string): string => createHash('sha256').update(token).digest('hex');

/** Sites whose calendar has a private address. */
export function listFeeds(store: Store): { site: string; madeAt: string; madeBy: string }[] {
  return store.sqlite
    .prepare('SELECT site, made_at AS madeAt, made_by AS madeBy FROM calendar_feed ORDER BY site')
    .all() as { site: string; madeAt: string; madeBy: string }[];
}

/** Makes a new address for a site and returns its secret part; only the hash is kept, an earlier one ends. */
export function makeFeed(store: Store, site: string, by: string, at: string): string {
  const token = randomBytes(24).toString('base64url');
  store.sqlite
    .prepare(
      `INSERT INTO calendar_feed (site, token_hash, made_at, made_by) VALUES (?, ?, ?, ?)
       ON CONFLICT (site) DO UPDATE SET token_hash = excluded.token_hash, made_at = excluded.made_at,
       made_by = excluded.made_by`,
    )
    .run(site, hashOf(token), at, by);
  return token;
}

/** The site that a secret address belongs to, or null. */
export function siteOfFeed(store: Store, token: string): string | null {
  const site = store.sqlite
    .prepare('SELECT site FROM calendar_feed WHERE token_hash = ?')
    .pluck()
    .get(hashOf(token)) as string | undefined;
  return site ?? null;
}
