import { afterEach, describe, expect, test } from 'vitest';
import { takeIn } from '../../server/services/takeIn.ts';
import { listHeld } from '../../server/store/heldRows.ts';
import { openStore } from '../../server/store/openStore.ts';
import { verifyStore } from '../../server/store/verify.ts';
import { writeFiles } from './ownFleet.ts';
import { temporaryPaths } from './running.ts';

const made: { remove(): void }[] = [];
afterEach(() => made.splice(0).forEach((paths) => paths.remove()));

const files = {
  'units.csv': 'unit_number,in_service_on,in_service_odometer_km\nX1,2022-01-01,0\n',
  'findings.csv': `unit_number,found_on,finding,value
X1,2023-05-02,screen_blocked_share,40
X1,2023-05-02,screen_blocked_share,40%
X1,2023-05-03,phase_deviation_crank_deg,4.5
X1,2023-05-04,cover_view,sooty
X1,2023-05-04,chain_elongation_percent,12
X1,2021-11-30,cover_view,heavy
`,
  'codes.csv':
    'unit_number,seen_on,code\nX1,2023-05-02,P0011\nX1,2023-05-02,P4011\nX1,2023-05-02,oil light\n',
};

describe('findings and codes that can not stand as they are', () => {
  test('are held with what to do next; the others are taken', async () => {
    const paths = temporaryPaths();
    made.push(paths);
    await takeIn(paths.ownStore, writeFiles(files), { dryRun: false, by: 'test', today: '2024-06-01' });
    const store = await openStore(paths.ownStore);
    const held = listHeld(store, { after: 0, limit: 20 }).rows;
    const told = held.map(({ code, cells }) => [code, cells[cells.length - 1]]);
    expect(told.sort()).toEqual(
      [
        ['share_or_percent', '40'],
        ['unknown_word', 'sooty'],
        ['out_of_range', '12'],
        ['date_before_service', 'heavy'],
        ['not_a_code', 'P4011'],
        ['not_a_code', 'oil light'],
      ].sort(),
    );
    // the unit, 40 % as a share, the phase without a described drive, and one code
    expect(verifyStore(store)).toMatchObject({ ok: true, held: 6, accepted: 4 });
    await store.close();
  });
});
