import { afterAll, beforeAll, expect, test } from 'vitest';
import { unitStoryOf as storyOf } from '../../models/assessment/unitStory.ts';
import { fleetModels } from '../../server/fleetModels.ts';
import { workFleet } from '../../server/services/assessStore.ts';
import { unitNow, unitStoryOf } from '../../server/services/unitNow.ts';
import { startServer, type Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
}, 120_000);
afterAll(async () => {
  await server.stop();
});

test('a unit worked out from its own records alone says what the whole fleet worked through says', async () => {
  const { context } = server;
  const store = await context.current();
  const { view, fleet } = await workFleet(context, store);
  const models = fleetModels(context.coefficients);
  const { units } = view.assessment;
  expect(units.length).toBeGreaterThan(100);
  for (const assessment of units.filter((_, place) => place % 4 === 0)) {
    const own = (await unitNow(context, store, assessment.unitNumber))!;
    const whole = storyOf(view.views.get(assessment.unitNumber)!, assessment, view.learned.alarms, models);
    expect(unitStoryOf(context, own), assessment.unitNumber).toEqual(whole);
  }
  const gone = fleet.units.find(
    ({ unit }) => !units.some(({ unitNumber }) => unitNumber === unit.unitNumber),
  );
  expect(gone).toBeDefined();
  expect(await unitNow(context, store, gone!.unit.unitNumber)).toBeNull();
  expect(await unitNow(context, store, 'no such unit')).toBeNull();
  expect(await unitNow(context, store, units[0].unitNumber.toLowerCase())).not.toBeNull();
});
