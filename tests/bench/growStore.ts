import type { Store } from '../../server/store/openStore.ts';

/** Every unit of a store several times over, under numbers of their own. */
export function growStore({ sqlite }: Store, times: number): void {
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
