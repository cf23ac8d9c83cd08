import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { IntakeBatch } from '../../models/schema/intake.ts';
import { deskUnit, type DeskUnit } from '../../models/schema/deskEndpoints.ts';
import { unitStory, type UnitStory } from '../../models/schema/story.ts';
import { setStoreNote } from '../../server/store/settings.ts';
import { deskFleet, isoAgo } from './deskFleet.ts';
import { startServer, type Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
  const uploads: string[] = [];
  for (const [name, text] of Object.entries(deskFleet())) {
    const answer = await fetch(`${server.address}/api/uploads?name=${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: text,
    });
    uploads.push(((await answer.json()) as { upload: string }).upload);
  }
  await post('/api/own', {});
  const report = (await (await post('/api/intake', { uploads })).json()) as { committed: boolean };
  expect(report.committed).toBe(true);
  await setStoreNote(await server.context.own(), 'as_of', isoAgo(0));
});
afterAll(async () => server.stop());

interface Kept {
  readonly batch: string;
  readonly kept: { kind: string; id: number; text: string }[];
  readonly messages: string[];
}
interface Refused {
  readonly code: string;
  readonly questions: { field: string; code: string; message: string }[];
}

const get = async (path: string): Promise<unknown> => (await fetch(server.address + path)).json();
const desk = async (unit: string): Promise<DeskUnit> => deskUnit.parse(await get(`/api/units/${unit}/desk`));
const story = async (unit: string): Promise<UnitStory> => unitStory.parse(await get(`/api/units/${unit}`));
const post = (path: string, body: unknown, key?: string): Promise<Response> =>
  fetch(server.address + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...(key === undefined ? {} : { 'Idempotency-Key': key }) },
    body: JSON.stringify(body),
  });
const keep = async (unit: string, body: object, key?: string): Promise<Kept> => {
  const answer = await post(`/api/units/${unit}/findings`, { technician: 'Maud Serra', ...body }, key);
  expect(answer.status).toBe(200);
  return (await answer.json()) as Kept;
};
const refuse = async (unit: string, body: object): Promise<string[]> => {
  const answer = await post(`/api/units/${unit}/findings`, { technician: 'Maud Serra', ...body });
  expect(answer.status).toBe(422);
  return ((await answer.json()) as Refused).questions.map(({ code }) => code);
};

describe('the symptom desk over the wire, on a real store', () => {
  test('gives tables and units to work with in the browser', async () => {
    const answer = (await get('/api/desk')) as {
      units: { unitNumber: string }[];
      table: { causes: unknown[] };
      faultCodes: { code: string }[];
      coefficients: Record<string, number>;
    };
    expect(answer.units.map(({ unitNumber }) => unitNumber)).toEqual(['B1', 'N1', 'P1']);
    expect(answer.table.causes).toHaveLength(9);
    expect(answer.faultCodes.map(({ code }) => code)).toContain('P0335');
    expect(Object.keys(answer.coefficients).every((id) => id.startsWith('evidence.'))).toBe(true);
    const unit = await desk('p1');
    expect(unit).toMatchObject({ unitNumber: 'P1', interference: true, stops: [], asOf: isoAgo(0) });
    expect(unit.drive).toEqual({ pitchMm: 8, camTeeth: 36, tightStrandMm: 300 });
    expect(unit.renewals).toEqual([{ on: isoAgo(40), part: 'timing_set' }]);
    expect((await fetch(`${server.address}/api/units/none/desk`)).status).toBe(404);
  });

  test('a blocked screen kept with the unit raises its sludge, stands as a batch in a name, and is taken back', async () => {
    const before = await desk('P1');
    const entry = {
      findings: [{ finding: 'screen_blocked_share', value: '85 %', bank: '1' }],
      note: 'flakes, "black"',
    };
    const kept = await keep('P1', entry);
    expect(kept.kept).toEqual([
      expect.objectContaining({ kind: 'findings', text: 'screen blocked share: 0.85' }),
    ]);
    const after = await desk('P1');
    expect(after.now.sludge!.value).toBeGreaterThan(before.now.sludge!.value + 0.5);
    const link = (await story('P1')).records.find(
      ({ kind, id }) => kind === 'findings' && id === kept.kept[0].id,
    )!;
    expect(link).toMatchObject({ line: 2, file: `findings_desk_P1_${before.asOf}.csv` });
    expect(link.text).toContain('found by Maud Serra; flakes, "black"');
    const { batches } = (await get('/api/intake/batches')) as { batches: IntakeBatch[] };
    expect(batches[0]).toMatchObject({ batch: kept.batch, madeBy: 'Maud Serra' });

    const again = await keep('P1', entry);
    expect(again.messages.join()).toContain('on record already');
    expect(again.kept[0].id).toBe(kept.kept[0].id);
    for (const batch of [again.batch, kept.batch])
      expect((await post(`/api/intake/batches/${batch}/undo`, {})).status).toBe(200);
    expect((await desk('P1')).now.sludge).toEqual(before.now.sludge);
  });

  test('the same key keeps an entry once', async () => {
    const entry = { codes: ['p0011-00'] };
    const first = await keep('P1', entry, 'entry-1');
    expect(await keep('P1', entry, 'entry-1')).toEqual(first);
    expect(first.kept.map(({ text }) => text)).toEqual(['code P0011']);
    await post(`/api/intake/batches/${first.batch}/undo`, {});
  });

  test('asks instead of keeping what can not be meant', async () => {
    const screen = (value: string) => ({ findings: [{ finding: 'screen_blocked_share', value }] });
    expect(await refuse('P1', screen('40'))).toEqual(['share_or_percent']);
    expect(await refuse('P1', screen('half'))).toEqual(['not_a_number']);
    expect(await refuse('P1', { codes: ['P00', 'X1234', 'P0016'] })).toEqual(['code_form', 'code_form']);
    expect(await refuse('P1', { ...screen('0.4'), technician: 'none' })).toEqual(['no_name']);
    expect(await refuse('P1', { ...screen('0.4'), foundOn: isoAgo(-9) })).toEqual(['date_future']);
    expect(await refuse('P1', { ...screen('0.4'), foundOn: isoAgo(4000) })).toEqual(['date_before_service']);
    expect(await refuse('P1', {})).toEqual(['nothing']);
    const back = await refuse('P1', { ...screen('0.4'), odometerKm: 12 });
    expect(back).toHaveLength(1);
    const phase = { findings: [{ finding: 'phase_deviation_crank_deg', value: '5' }], foundOn: isoAgo(60) };
    expect(await refuse('P1', phase)).toEqual(['before_renewal']);
    const { batches } = (await get('/api/intake/batches')) as { batches: IntakeBatch[] };
    expect(batches.filter(({ undoneAt }) => undoneAt === null)).toHaveLength(1);
  });

  test('a phase deviation is asked about where the drive is not described or there is no chain', async () => {
    const entry = { findings: [{ finding: 'phase_deviation_crank_deg', value: '4' }] };
    expect(await refuse('B1', entry)).toEqual(['phase_no_chain']);
    expect(await refuse('N1', entry)).toEqual(['phase_geometry']);
    const kept = await keep('N1', { ...entry, confirmed: ['phase_geometry'] });
    await post(`/api/intake/batches/${kept.batch}/undo`, {});
  });

  test('direct evidence stops a unit; only a named clearing after it, with what was checked, ends the stop', async () => {
    expect(await refuse('P1', { cleared: 'pressure 160 kPa with a gauge' })).toEqual(['nothing_stands']);
    const coolant = { findings: [{ finding: 'coolant_in_oil', value: 'yes' }] };
    await keep('P1', coolant);
    expect((await story('P1')).assessment.call).toBe('stop');
    expect(await refuse('P1', { cleared: 'ok' })).toEqual(['cleared_without_check']);
    expect(await refuse('P1', { cleared: 'cooler renewed, oil clean', codes: ['P0016'] })).toEqual([
      'cleared_with_signs',
    ]);
    expect(await refuse('P1', { cleared: 'cooler renewed, oil clean', foundOn: isoAgo(1) })).toEqual([
      'cleared_before',
    ]);
    const kept = await keep('P1', { cleared: 'oil cooler renewed, oil clean after 200 km' });
    expect(kept.kept.map(({ text }) => text)).toEqual(['cleared: Maud Serra']);
    const after = await story('P1');
    expect(after.assessment.call).not.toBe('stop');
    const late = await keep('P1', { findings: [{ finding: 'start_rattle_s', value: '7', soakH: 9 }] });
    expect(late.messages.join()).toContain('cleared this unit on the same day');
  });
});
