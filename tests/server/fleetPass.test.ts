import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { unitStoryOf as storyOf } from '../../models/assessment/unitStory.ts';
import { evenDeviates } from '../../models/assessment/moneyUnitOf.ts';
import { moneyUnitWithStates } from '../../models/assessment/moneyUnitWithStates.ts';
import type { UnitView } from '../../models/assessment/unitView.ts';
import { unitViews } from '../../models/assessment/unitViews.ts';
import { seededRandom } from '../../models/numeric/random.ts';
import { endPass, passLines, ratesOf, taughtBy } from '../../models/assessment/fleetPass.ts';
import { fleetModels } from '../../server/fleetModels.ts';
import { ensureBuilt } from '../../server/launch.mjs';
import { workFleet } from '../../server/services/assessStore.ts';
import { answerHere } from '../../server/services/fleetAnswers.ts';
import {
  beginAt,
  FleetHand,
  ofHand,
  RecordsChanged,
  type HandTold,
} from '../../server/services/fleetHand.ts';
import { questionOf } from '../../server/services/fleetQuestion.ts';
import { pack, unpack } from '../../server/services/packed.ts';
import { endHand, sharedPass } from '../../server/services/sharedPass.ts';
import { unitNow, unitStoryOf } from '../../server/services/unitNow.ts';
import { revisionOf } from '../../server/store/settings.ts';
import { startServer, type Running } from './running.ts';

let server: Running;
beforeAll(async () => {
  server = await startServer();
});
afterAll(async () => {
  await endHand();
  await server.stop();
});

async function asked() {
  const { context } = server;
  const store = await context.current();
  const models = fleetModels(context.coefficients);
  const question = await questionOf(context, store);
  return { context, store, models, question, revision: await revisionOf(store) };
}

test('two hands say of a fleet what one says', async () => {
  const { context, store, models, question, revision } = await asked();
  const told: HandTold[] = [];
  const hand = new FleetHand(models, (word) => told.push(structuredClone(word)));
  hand.begin(store, revision, question);
  const pass = beginAt(store, revision, question, models);
  const rates = ratesOf(pass.worked, models)!;
  hand.finish(structuredClone(rates.rates));
  const [first, second] = told;
  if (!('outlook' in first) || !('lines' in second))
    throw new Error('the hand must tell outlook, then lines');
  const taught = taughtBy(pass, rates.rates, first.outlook, question.horizon);
  const own = passLines(pass, taught, models, (place) => !ofHand(place), rates.prepared);
  const lines = pass.active.map((_, i) => (ofHand(i) ? second.lines[(i - 1) / 2] : own[i / 2]));
  const result = endPass(pass, taught, first.outlook, lines, models);
  const { view } = await workFleet(context, store);
  expect(result.assessment).toEqual(view.assessment);
  expect(result.learned).toEqual(view.learned);
  expect(unpack(pack(result.learned))).toEqual(view.learned);
  for (const name of ['promise', 'samples'] as const)
    expect(JSON.parse(JSON.stringify(result[name]))).toEqual(
      JSON.parse(await answerHere(context, store, { name })),
    );
});

test('a pass that begins on records of another revision is refused', async () => {
  const { store, models, question, revision } = await asked();
  expect(() => beginAt(store, revision + 1, question, models)).toThrow(RecordsChanged);
});

test('a second thread says the same; where it can not do its part, nothing is said', async () => {
  const { context, store, question } = await asked();
  expect(
    await sharedPass({ ...context, paths: { ...context.paths, web: 'no build' } }, store, question, 2),
  ).toBeNull();
  const built = process.env.SUMPWISE_BUILT ?? (await ensureBuilt());
  const withThreads = { ...context, paths: { ...context.paths, web: join(built, 'web') } };
  const result = await sharedPass(withThreads, store, question, 2);
  const { view } = await workFleet(context, store);
  expect(result?.assessment).toEqual(view.assessment);
  expect(await sharedPass(withThreads, store, { ...question, day: 'no day' }, 2)).toBeNull();
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

test('units worked out as their turn comes give plan and budget what those in memory give', async () => {
  const { context, store, models } = await asked();
  const { view, fleet } = await workFleet(context, store);
  const { coefficients } = context;
  const said = (views: Iterable<UnitView>): unknown[] => {
    const setting = {
      horizonDays: view.learned.horizonDays,
      shape: view.learned.shape,
      fleetDeviates: evenDeviates(8),
      fleetShare: coefficients['money.fleet_share_of_doubt'],
      random: seededRandom(3),
    };
    return Array.from(views, (own) => [
      moneyUnitWithStates(own, setting, coefficients),
      own.oil?.due,
      own.call,
    ]);
  };
  const inMemory = said(view.views.values());
  expect(inMemory.length).toBe(view.assessment.units.length);
  expect(said(unitViews(fleet, view.learned, models))).toEqual(inMemory);
});
