import type { z } from 'zod';
import { taughtKey } from '../../models/intake/workText.ts';
import type { WorkKind } from '../../models/schema/service.ts';
import type { workTextEndpoints } from '../../models/schema/workTextEndpoints.ts';
import { openStore, type Store } from '../store/openStore.ts';
import { rowWriter } from '../store/rowWriter.ts';
import { raiseRevision } from '../store/settings.ts';
import { dropTaught, keepTaught, listTaught, loadTaught } from '../store/taughtTexts.ts';
import { countedTexts, rowsWithText, unitsWithText } from '../store/workTexts.ts';
import { vocabulary } from '../vocabulary.ts';
import { workReader } from '../workWords.ts';
import { settleMeters } from './intake/settleMeters.ts';

/** Below this a person should look at what a text was read as. */
const sureFrom = 0.8;
const shownTexts = 50;
const shownRows = 3;

interface Group {
  readonly texts: string[];
  count: number;
}

/** The texts of the service rows by the key under which they are taught: case and spacing do not matter. */
function groupsOf(store: Store): Map<string, Group> {
  const groups = new Map<string, Group>();
  for (const { text, count } of countedTexts(store)) {
    const key = taughtKey(text);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { texts: [text], count });
    else {
      group.texts.push(text);
      group.count += count;
    }
  }
  return groups;
}

/** Texts that are not understood well, most rows first, and those that people taught. */
export function workTextsOf(
  store: Store,
  limit: number = shownTexts,
): z.input<(typeof workTextEndpoints)['workTexts']['response']> {
  const read = workReader(loadTaught(store));
  const groups = groupsOf(store);
  const unknown = [];
  for (const group of [...groups.values()].sort((a, b) => b.count - a.count)) {
    if (unknown.length >= limit) break;
    const { works, confidence } = read(group.texts[0]);
    if (confidence >= sureFrom) continue;
    unknown.push({
      text: group.texts[0],
      count: group.count,
      works: [...works],
      confidence,
      examples: rowsWithText(store, group.texts, shownRows),
    });
  }
  const taught = listTaught(store).map((entry) => ({
    ...entry,
    count: groups.get(taughtKey(entry.text))?.count ?? 0,
  }));
  return { unknown, taught };
}

/** Rows and units that have a text in any spelling. */
function reachOf(store: Store, text: string): { rows: number; units: Set<string> } {
  const group = groupsOf(store).get(taughtKey(text));
  return group === undefined
    ? { rows: 0, units: new Set() }
    : { rows: group.count, units: unitsWithText(store, group.texts) };
}

async function change(
  storeFile: string,
  text: string,
  today: string,
  work: (store: Store) => void,
): Promise<number> {
  const store = await openStore(storeFile);
  try {
    return store.sqlite
      .transaction(() => {
        work(store);
        const { rows, units } = reachOf(store, text);
        // what a text means decides which visits are the same and where a meter was replaced
        settleMeters(store, rowWriter(store), vocabulary(), units, today);
        raiseRevision(store);
        return rows;
      })
      .immediate();
  } finally {
    await store.close();
  }
}

/** Teaches a text; all records are read anew from now on. Returns how many rows have it. */
export async function teachWorkText(
  storeFile: string,
  lesson: { text: string; works: readonly WorkKind[]; by: string; at: string; today: string },
): Promise<number> {
  const works = [...new Set(lesson.works)].filter((work) => work !== 'other' || lesson.works.length === 1);
  return change(storeFile, lesson.text, lesson.today, (store) =>
    keepTaught(store, { text: lesson.text, works, taughtAt: lesson.at, taughtBy: lesson.by }),
  );
}

/** Takes a taught text back. Returns how many rows have it, or null when it was not taught. */
export async function forgetWorkText(storeFile: string, text: string, today: string): Promise<number | null> {
  let dropped = 0;
  const rows = await change(storeFile, text, today, (store) => (dropped = dropTaught(store, text)));
  return dropped === 0 ? null : rows;
}
