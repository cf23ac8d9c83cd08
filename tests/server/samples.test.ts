import { existsSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fleetSamples, type IntervalApproval } from '../../models/schema/sampleView.ts';
import { unitStory, type UnitStory } from '../../models/schema/story.ts';
import { openStore } from '../../server/store/openStore.ts';
import { setStoreNote } from '../../server/store/settings.ts';
import { isoAgo as iso } from './deskFleet.ts';
import { startServer, type Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
});
afterAll(async () => server.stop());

async function post(path: string, body: unknown): Promise<Response> {
  return fetch(server.address + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

/** One highway unit as of today: 100 km a day, a drain every 100 days, the last one 60 days ago. */
function files(): Record<string, string> {
  const span = 860;
  const km = (daysAgo: number): number => 100 * (span - daysAgo);
  const readings = ['unit_number,read_on,odometer_km,engine_hours_h,idle_hours_h'];
  for (let ago = span; ago >= 0; ago -= 20)
    readings.push(`M1,${iso(ago)},${km(ago)},${(1.3 * km(ago)) / 100},${(0.1 * km(ago)) / 100}`);
  const service = ['unit_number,serviced_on,odometer_km,work,oil_grade,oil_category,oil_l'];
  for (let ago = 760; ago >= 60; ago -= 100)
    service.push(`M1,${iso(ago)},${km(ago)},oil_change,5W-30,API SP,5.5`);
  const head =
    'unit_number,sampled_on,odometer_km,oil_km,kv100_mm2_s,kv40_mm2_s,base_number_mg_koh_g,base_number_method,fuel_percent,soot_percent,oxidation_a_cm,iron_ppm,glycol,record_id';
  const row = (ago: number, oilKm: number, base: number, id: string): string =>
    `M1,${iso(ago)},${km(ago)},${oilKm},9.9,61,${base},D2896,0.3,0.1,3,12,no,${id}`;
  return {
    'engines.csv':
      'engine_family,displacement_l,fuel_system,sump_l,required_grade,required_category,book_interval_km,book_interval_months,timing_drive,interference\nGarth 25,2.5,PFI,5.5,5W-30,API SP,8000,12,chain,yes\n',
    'units.csv': `unit_number,duty,engine_family,in_service_on,in_service_odometer_km,status\nM1,highway,Garth 25,${iso(span)},0,active\n`,
    'readings.csv': `${readings.join('\n')}\n`,
    'service.csv': `${service.join('\n')}\n`,
    'samples.csv': `${[head, row(60, 9900, 6, 's1'), row(5, 5500, 6.8, 's2'), row(100, 6000, 25, 's3')].join('\n')}\n`,
    'findings.csv': `unit_number,found_on,finding,value\nM1,${iso(60)},cover_view,clean\n`,
  };
}

async function takeIn(named: Record<string, string>): Promise<void> {
  const uploads: string[] = [];
  for (const [name, text] of Object.entries(named)) {
    const answer = await fetch(`${server.address}/api/uploads?name=${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: text,
    });
    uploads.push(((await answer.json()) as { upload: string }).upload);
  }
  const report = (await (await post('/api/intake', { uploads })).json()) as { committed: boolean };
  expect(report.committed).toBe(true);
}

const story = async (): Promise<UnitStory> =>
  unitStory.parse(await (await fetch(`${server.address}/api/units/M1`)).json());

describe('samples and approvals over the wire, on a real store', () => {
  test('the demo answers with its samples and alarm limits', async () => {
    const document = fleetSamples.parse(await (await fetch(`${server.address}/api/samples`)).json());
    expect(document.samples.length).toBeGreaterThan(100);
    expect(document.populations.some(({ samples, limits }) => samples >= 30 && limits.length > 5)).toBe(true);
    for (const { samples, limits } of document.populations) if (samples < 30) expect(limits).toEqual([]);
  });

  test('impossible chemistry is held with the reason; the other samples are judged', async () => {
    await takeIn(files());
    await setStoreNote(await server.context.own(), 'as_of', iso(0));
    const held = (await (await fetch(`${server.address}/api/held`)).json()) as {
      rows: { reasons: { code: string }[] }[];
      groups: { code: string }[];
    };
    expect(held.groups.map(({ code }) => code)).toEqual(['base_above_new_oil']);
    const { samples, extension } = await story();
    expect(samples.map(({ running, level }) => [running, level])).toEqual([
      [true, 'normal'],
      [false, 'normal'],
    ]);
    expect(extension).toMatchObject({ refusals: [], standing: null, bookKm: 8000 });
  });

  test('an approval needs a name and stays within the chemical limit; it lengthens, and is withdrawn', async () => {
    const before = await story();
    const path = '/api/units/M1/approvals';
    const nameless = await post(path, { intervalKm: 9000, approvedBy: 'yes' });
    expect(nameless.status).toBe(422);
    expect((await post(path, { intervalKm: 9000 })).status).toBe(400);
    const far = await post(path, { intervalKm: 150_000, approvedBy: 'Ines Farrow' });
    expect(far.status).toBe(422);
    expect(((await far.json()) as { detail: string }).detail).toContain('past the chemical limit');
    expect(
      (await post('/api/units/none/approvals', { intervalKm: 9000, approvedBy: 'Ines Farrow' })).status,
    ).toBe(404);

    const given = await post(path, { intervalKm: 9000, approvedBy: 'Ines Farrow', note: 'by two samples' });
    expect(given.status).toBe(200);
    expect((await given.json()) as IntervalApproval).toMatchObject({ unitNumber: 'M1', intervalKm: 9000 });
    const after = await story();
    expect(after.extension.standing).toMatchObject({ approvedBy: 'Ines Farrow', note: 'by two samples' });
    expect(after.assessment.oil!.adjustedIntervalKm!).toBeGreaterThan(
      before.assessment.oil!.adjustedIntervalKm!,
    );
    expect(after.intervalWords.join()).toContain("in place of the book's 8 000 km");

    const withdrawn = await post(`${path}/withdrawal`, { withdrawnBy: 'Bo Lind' });
    expect(await withdrawn.json()).toEqual({ withdrawn: 1 });
    const back = await story();
    expect(back.extension.standing).toBeNull();
    expect(back.assessment.oil!.adjustedIntervalKm).toBe(before.assessment.oil!.adjustedIntervalKm);
  });

  test('a later sample that condemns blocks an approval and brings the oil due today', async () => {
    expect(
      (await post('/api/units/M1/approvals', { intervalKm: 9000, approvedBy: 'Ines Farrow' })).status,
    ).toBe(200);
    const head = 'unit_number,sampled_on,oil_km,base_number_mg_koh_g,base_number_method,iron_ppm,glycol\n';
    await takeIn({ 'late.csv': `${head}M1,${iso(0)},6000,2.5,D2896,130,no\n` });
    const { extension, assessment } = await story();
    expect(extension.standing).toBeNull();
    expect(extension.blocked).toContain('approved by Ines Farrow');
    expect(assessment.oil?.dueOn).toBe(iso(0));
    expect(assessment.call).toBe('book');
    expect(assessment.reasons.join()).toContain('condemns the oil');
  });

  test('the store refuses an approval without a name, and the layout opens again', async () => {
    await server.context.current();
    expect(existsSync(server.paths.ownStore)).toBe(true);
    const store = await openStore(server.paths.ownStore);
    const insert = store.sqlite.prepare(
      "INSERT INTO interval_approval (unit_number, interval_km, approved_by, approved_on, evidence, made_at) VALUES ('M1', 9000, ' ', '2026-01-01', '[]', '')",
    );
    expect(() => insert.run()).toThrow(/CHECK/);
    await store.close();
    expect(server.log).toEqual([]);
  });
});
