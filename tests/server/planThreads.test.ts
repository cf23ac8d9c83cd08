import { beforeAll, describe, expect, test } from 'vitest';
import { planShop, planWork } from '../../models/decisions/shop/planShop.ts';
import { replan, replanWork } from '../../models/decisions/shop/replan.ts';
import type { ShopPlan } from '../../models/schema/shopPlan.ts';
import { pathsOf, type Paths } from '../../server/config.ts';
import { workerFile } from '../../server/files/workerFile.ts';
import { ensureBuilt } from '../../server/launch.mjs';
import { planOnThreads } from '../../server/services/planThreads.ts';
import { inventedShop } from '../bench/inventedShop.ts';
import { rules } from '../models/decisions/shop/smallShop.ts';

const root = new URL('../..', import.meta.url).pathname;
const inputs = inventedShop(300, 13, 0.25, 11, rules);
const effort = {
  priceSteps: 40,
  packingSteps: 10,
  diveSteps: 5,
  dives: 1,
  firstStepShare: 0.2,
  lastStepShare: 0.00133,
  roundsPerGroup: 2,
  leastRounds: 0,
  mostRounds: 200,
  kicks: 0,
  windowSteps: 0,
};

let paths: Paths;
let plan: ShopPlan;
beforeAll(async () => {
  paths = pathsOf(root, process.env.SUMPWISE_BUILT ?? (await ensureBuilt()));
  plan = planShop(inputs, effort);
});

describe('sites on threads of their own', () => {
  test('give the plan that one thread gives, and tell how many are done', async () => {
    expect(workerFile(paths, 'sitePlanner')).not.toBeNull();
    const told: [number, number][] = [];
    const threaded = await planOnThreads(paths, planWork(inputs, effort), (done, total) =>
      told.push([done, total]),
    );
    expect(plan.sites.length).toBeGreaterThan(2);
    expect(threaded).toEqual(plan);
    expect(told).toEqual(Array.from({ length: plan.sites.length + 1 }, (_, i) => [i, plan.sites.length]));
  });

  test('give the same plan after a change', async () => {
    const day = inputs.fromDay + 10;
    const away = {
      ...inputs,
      technicians: inputs.technicians.map((person) => ({
        ...person,
        away: [...person.away, { fromDay: day, toDay: day + 13 }],
      })),
    };
    const change = { kind: 'records' } as const;
    const threaded = await planOnThreads(paths, replanWork(away, plan, change, effort));
    expect(threaded.differences.length).toBeGreaterThan(0);
    expect(threaded).toEqual(replan(away, plan, change, effort));
  });

  test('a site that can not be worked out ends the plan with its reason', async () => {
    const { parts, join } = planWork(inputs, effort);
    const broken = parts.map((part, i) =>
      i === 1 ? { ...part, inputs: { ...part.inputs, rules: { ...rules, cellMinutes: 0 } } } : part,
    );
    await expect(planOnThreads(paths, { parts: broken, join })).rejects.toThrow(RangeError);
  });
});
