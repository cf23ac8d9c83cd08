import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { read, utils } from '@e965/xlsx';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { PlanAnswer } from '../../models/schema/planEndpoints.ts';
import { planAnswer } from '../../models/schema/planEndpoints.ts';
import type { MoveCost } from '../../models/schema/shopPlan.ts';
import type { Visit } from '../../models/schema/visit.ts';
import { isoFromDay, dayFromIso } from '../../models/schema/day.ts';
import { plan as planOnCommand } from '../../server/cli/plan.ts';
import { startServer, type Running } from './running.ts';
import { post } from './shopFleet.ts';

interface Component {
  getAllSubcomponents(name: string): Component[];
  getFirstPropertyValue(name: string): { toJSDate(): Date } & string;
}
const ICAL = createRequire(import.meta.url)('ical.js') as unknown as {
  default?: typeof ICAL;
  parse(text: string): unknown;
  Component: new (parsed: unknown) => Component;
};
const parser = ICAL.default ?? ICAL;

let server: Running;
const asked = { weeks: 4 };
const planNow = async (): Promise<PlanAnswer> =>
  planAnswer.parse(await (await fetch(`${server.address}/api/plan?weeks=4`)).json());
beforeAll(async () => {
  server = await startServer();
});
afterAll(() => server.stop());

/** The first visit that can go to one of the days after its own, with that day and what it costs. */
async function movable({ plan }: PlanAnswer): Promise<{ visitId: string; on: string; cost: MoveCost }> {
  for (const visit of plan.visits)
    for (let ahead = 1; ahead <= 6; ahead++) {
      const on = isoFromDay(dayFromIso(visit.on) + ahead);
      const { body } = await post<MoveCost>(server, '/api/plan/cost-of-move', {
        ...asked,
        visitId: visit.id,
        to: { on },
      });
      if (body.possible) return { visitId: visit.id, on, cost: body };
    }
  throw new Error('no visit of the plan can be moved');
}

describe('the shop plan over the address', () => {
  test('a moved visit stays where it was put, also when the plan is read again, until it is freed', async () => {
    const before = await planNow();
    expect(before.plan.visits.length).toBeGreaterThan(5);
    const { visitId, on, cost } = await movable(before);
    expect(cost.costCents).toBe(cost.parts.reduce((sum, { cents }) => sum + cents, 0));
    const moved = await post<PlanAnswer>(server, '/api/plan/move', { ...asked, visitId, to: { on } });
    expect(moved.status).toBe(200);
    const again = await planNow();
    expect(again.plan.visits.find(({ id }) => id === visitId)).toMatchObject({ on, locked: true });
    const other = again.plan.visits.find((visit) => !visit.locked);
    const locked = await post<PlanAnswer>(server, '/api/plan/lock', {
      ...asked,
      visitId: other?.id,
      locked: true,
    });
    const at = (answer: PlanAnswer, id: string | undefined) =>
      answer.plan.visits.find((visit) => visit.id === id);
    expect(at(locked.body, other?.id)).toMatchObject({ on: other?.on, locked: true });
    expect(at(locked.body, visitId)).toMatchObject({ on, locked: true });
    const freed = await post<PlanAnswer>(server, '/api/plan/lock', { ...asked, visitId, locked: false });
    expect(at(freed.body, visitId)?.locked).toBe(false);
    expect(at(await planNow(), other?.id)?.locked).toBe(true);
  });

  test('a move to where it can not be is refused with the reason', async () => {
    const { plan } = await planNow();
    const visit = plan.visits.find(({ bay }) => bay !== null);
    const answer = await post<{ detail: string }>(server, '/api/plan/move', {
      ...asked,
      visitId: visit?.id,
      to: { on: plan.from, technician: 'Nobody Known' },
    });
    expect(answer.status).toBe(409);
    expect(answer.body.detail).toMatch(/can not be there: .*Nobody Known does not work there/);
  });

  test('publishing books the visits once, and booked ones stay', async () => {
    const before = await planNow();
    const through = isoFromDay(dayFromIso(before.plan.from) + 13);
    const due = before.plan.visits.filter(({ on }) => on <= through);
    expect(due.length).toBeGreaterThan(0);
    const nobody = await post(server, '/api/plan/publish', { ...asked, through, by: '--' });
    expect(nobody.status).toBe(422);
    const first = await post<PlanAnswer & { published: number }>(server, '/api/plan/publish', {
      ...asked,
      through,
      by: 'Ines Farrow',
    });
    expect(first.body.published).toBe(due.length);
    const { visits } = (await (await fetch(`${server.address}/api/visits?state=booked`)).json()) as {
      visits: Visit[];
    };
    const where = (list: readonly { on: string; bay: string | null; unitNumber: string }[]) =>
      list.map(({ on, bay, unitNumber }) => `${unitNumber} ${on} ${bay}`).sort();
    expect(where(visits)).toEqual(where(due));
    const after = await planNow();
    expect(after.booked).toHaveLength(due.length);
    expect(where(after.plan.visits.filter(({ on }) => on <= through))).toEqual(
      expect.arrayContaining(where(due)),
    );
    const [booked] = after.booked;
    const refused = await post<{ detail: string }>(server, '/api/plan/lock', {
      ...asked,
      visitId: booked.planVisitId,
      locked: false,
    });
    expect(refused.status).toBe(409);
    expect(refused.body.detail).toContain('is booked');
  });

  test('the command line gives the same plan, with what is booked and locked, also over another span', async () => {
    const paths = { ...server.paths, ownStore: server.paths.demoStore };
    const onCommand = async (weeks: number): Promise<string> => {
      const csv = join(dirname(paths.ownStore), `plan-${weeks}.csv`);
      const { plan } = await planNow();
      const quiet = vi.spyOn(process.stdout, 'write').mockReturnValue(true);
      await planOnCommand(paths, { from: plan.from, weeks, csv, json: false });
      quiet.mockRestore();
      return readFileSync(csv, 'utf8');
    };
    expect(await onCommand(4)).toBe(await (await fetch(`${server.address}/api/plan.csv?weeks=4`)).text());
    const longer = await onCommand(5);
    const { plan, booked } = await planNow();
    const held = plan.visits.filter(({ id }) => booked.some(({ planVisitId }) => planVisitId === id));
    expect(held.length).toBeGreaterThan(0);
    for (const visit of held)
      expect(
        longer.split('\n').some((line) => [visit.unitNumber, visit.on].every((word) => line.includes(word))),
      ).toBe(true);
  });

  test('while a plan is worked out the page is told how far it is, and other questions are answered', async () => {
    const work = async () =>
      (await (await fetch(`${server.address}/api/plan/work?weeks=9`)).json()) as {
        state: string;
        done: number;
        total: number;
        result: PlanAnswer | null;
      };
    const states: string[] = [];
    for (;;) {
      const { state, done, total, result } = await work();
      states.push(state);
      expect(done).toBeLessThanOrEqual(total);
      expect(result === null).toBe(state === 'working');
      if (state !== 'working') {
        expect(planAnswer.parse(result)).toEqual(
          await (await fetch(`${server.address}/api/plan?weeks=9`)).json(),
        );
        break;
      }
    }
    expect(states.at(-1)).toBe('ready');
  });

  test('the private calendar of a site is read by ical.js; a new address ends the old one', async () => {
    const [{ site }] = (await planNow()).sites;
    const make = () => post<{ path: string }>(server, '/api/plan/feeds', { site, by: 'Ines Farrow' });
    const { path } = (await make()).body;
    const text = await (await fetch(server.address + path)).text();
    const events = new parser.Component(parser.parse(text)).getAllSubcomponents('vevent');
    const { plan } = planAnswer.parse(await (await fetch(`${server.address}/api/plan?weeks=13`)).json());
    const own = plan.visits.filter((visit) => visit.site === site);
    expect(events.length).toBeGreaterThan(0);
    expect(events.map((event) => event.getFirstPropertyValue('dtstart').toJSDate().getTime()).sort()).toEqual(
      own.map((visit) => Date.parse(visit.startsAt)).sort(),
    );
    expect((await make()).body.path).not.toBe(path);
    expect((await fetch(server.address + path)).status).toBe(404);
    const supplies = await (await fetch(`${server.address}/api/plan/supplies.csv?weeks=13`)).text();
    expect(supplies.trim().split('\n')).toHaveLength(plan.supplies.length + 1);
    const book = read(await (await fetch(`${server.address}/api/plan/supplies.xlsx?weeks=13`)).arrayBuffer());
    const rows = utils.sheet_to_json<unknown[]>(book.Sheets.Supplies, { header: 1 });
    expect(rows).toHaveLength(plan.supplies.length + 1);
    const [first] = plan.supplies;
    expect(rows[1].slice(0, 7)).toEqual([
      first.week,
      first.site,
      first.item,
      first.kind,
      first.quantity,
      first.measure,
      first.toOrder,
    ]);
  });
});
