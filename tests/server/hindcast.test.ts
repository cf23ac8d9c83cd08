import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { endpoints } from '../../models/schema/endpoints.ts';
import { hindcastResult, type HindcastResult } from '../../models/schema/hindcastEndpoints.ts';
import { runCommand } from '../../server/cli/command.ts';
import { assessStore } from '../../server/services/assessStore.ts';
import { performTask } from '../../server/services/backgroundTask.ts';
import { hindcastQuestion, hindcastStore } from '../../server/services/hindcastStore.ts';
import { takeIn } from '../../server/services/takeIn.ts';
import { fitVersions } from '../../server/store/fitVersions.ts';
import { ownFleet, writeFiles } from './ownFleet.ts';
import { startServer, type Running } from './running.ts';

let running: Running;
beforeAll(async () => {
  running = await startServer();
  const report = await takeIn(running.paths.ownStore, writeFiles(ownFleet), {
    dryRun: false,
    by: 'test',
    today: '2024-06-01',
  });
  expect(report.committed).toBe(true);
});
afterAll(() => running.stop());

async function ask(origins: readonly string[]): Promise<HindcastResult> {
  const store = await running.context.own();
  const question = await hindcastQuestion(running.context, store, { origins, horizonDays: 365 });
  if ('refused' in question) throw new Error(question.refused);
  return hindcastStore(running.context, store, question, () => undefined);
}

const command = (...words: string[]) => runCommand(words, () => running.paths);

describe('hindcast of own records', () => {
  test('says at an origin what assess says as of that day, and fewer than 5 failures are not ranked', async () => {
    const result = await ask(['2022-06-30']);
    expect(hindcastResult.safeParse(result).error).toBeUndefined();
    const then = await assessStore(running.context, await running.context.own(), '2022-06-30', 365);
    expect(result.origins[0].predictions.map((one) => [one.unitNumber, one.probability])).toEqual(
      then.units.map((unit) => [unit.unitNumber, unit.failure!.probability]),
    );
    const failed = result.origins[0].predictions.filter((one) => one.failed > 0);
    expect(failed.map((one) => [one.unitNumber, one.outcomeOn])).toEqual([['B3', '2022-08-15']]);
    for (const scores of [result.overall.sumpwise, result.overall.baseRate]) {
      expect(scores).toMatchObject({
        events: 1,
        auc: null,
        aucSe: null,
        calibrationSlope: null,
        ranks: false,
      });
      expect(scores.brier).toBeGreaterThan(0);
      expect(scores.notes[0]).toMatch(/Fewer than 5 failures/);
    }
  });

  test('is kept: asked again it is the same, without being worked out', async () => {
    const first = await ask(['2022-06-30']);
    expect(await ask(['2022-06-30', '2022-06-30'])).toEqual(first);
  });

  test('over HTTP it works in the background until it is ready; the address names days and horizon', async () => {
    const url = `${running.address}/api/hindcast?origins=2022-06-30&horizonDays=365`;
    let body = endpoints.hindcast.response.parse(await (await fetch(url)).json());
    while (body.state === 'working') {
      await new Promise((resolve) => setTimeout(resolve, 100));
      body = endpoints.hindcast.response.parse(await (await fetch(url)).json());
    }
    expect(body).toMatchObject({ state: 'ready', origins: ['2022-06-30'], done: 1 });
    expect(body.result!.overall.sumpwise.events).toBe(1);
    const refused = await (await fetch(`${running.address}/api/hindcast?origins=2019-01-01`)).json();
    expect(refused).toMatchObject({
      state: 'refused',
      reason: expect.stringContaining('before the first record'),
    });
    expect((await fetch(`${running.address}/api/hindcast?origins=soon`)).status).toBe(400);
  });

  test('exit status: 1 refused with the reason, 2 wrong usage', async () => {
    expect(await command('hindcast', '--origins', '2019-01-01', '--json')).toBe(1);
    expect(await command('hindcast', '--origins', '2099-01-01', '--json')).toBe(1);
    expect(await command('hindcast', '--origins', 'soon', '--json')).toBe(2);
    expect(await command('hindcast', '--json')).toBe(2);
  });

  test('a refit is kept as a version once, and a new record makes a new one that says what moved', async () => {
    const { context } = running;
    const store = await context.own();
    const refit = () => performTask(context, store, { kind: 'refit' }, () => undefined);
    await refit();
    await refit();
    expect(fitVersions(store, 10)).toHaveLength(1);
    const failure =
      'unit_number,serviced_on,odometer_km,work,outcome\nA2,2024-05-28,75800,R&R timing set,failed\n';
    await takeIn(running.paths.ownStore, writeFiles({ 'service.csv': failure }), {
      dryRun: false,
      by: 'test',
      today: '2024-06-01',
    });
    await refit();
    const [newest, before] = fitVersions(store, 10);
    expect(newest.version).not.toBe(before.version);
    expect(newest.changes.find(({ what }) => what === 'failures')).toMatchObject({ before: 1, after: 2 });
  });
});
