import { createRequire } from 'node:module';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { shopPlan, type ShopPlan } from '../../models/schema/shopPlan.ts';
import { calendarText } from '../../server/files/calendarFile.ts';
import { planCsv } from '../../server/files/planCsv.ts';
import { planStore } from '../../server/services/planShop.ts';
import { zoneOffset } from '../../server/services/planShopZone.ts';
import { dayFromIso } from '../../models/schema/day.ts';
import { startServer, type Running } from './running.ts';

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

let running: Running;
let plan: ShopPlan;
beforeAll(async () => {
  running = await startServer();
  const store = await running.context.current();
  const from = await running.context.asOf(store);
  plan = await planStore(running.context, store, { from, weeks: 13 });
});
afterAll(() => running.stop());

describe('the demo fleet over 13 weeks', () => {
  test('is a plan as the document says, with work in it', () => {
    expect(shopPlan.parse(plan)).toEqual(plan);
    expect(plan.visits.length).toBeGreaterThan(20);
    expect(plan.boundCents).toBeLessThanOrEqual(plan.objectiveCents);
    expect(plan.idealCents).toBeLessThanOrEqual(plan.boundCents);
    for (const { reason } of plan.notPlaced) expect(reason.length).toBeGreaterThan(10);
  });

  test('nobody is in two places at once, nor is a bay or a unit', () => {
    for (const field of ['bay', 'technician', 'unitNumber'] as const) {
      const groups = new Map<string, [string, string][]>();
      for (const visit of plan.visits) {
        const key = `${field === 'unitNumber' ? '' : visit.site}|${visit[field]}`;
        groups.set(key, [...(groups.get(key) ?? []), [visit.startsAt, visit.endsAt]]);
      }
      for (const stays of groups.values()) {
        stays.sort(([a], [b]) => (a < b ? -1 : 1));
        for (let i = 1; i < stays.length; i++) expect(stays[i][0] >= stays[i - 1][1]).toBe(true);
      }
    }
  });

  test('its calendar reads the same in ical.js', () => {
    const root = new parser.Component(parser.parse(calendarText(plan, '2026-11-10T09:00:00Z')));
    const events = root.getAllSubcomponents('vevent');
    expect(events).toHaveLength(plan.visits.length);
    const starts = (list: readonly number[]) => [...list].sort((a, b) => a - b);
    expect(
      starts(events.map((event) => event.getFirstPropertyValue('dtstart').toJSDate().getTime())),
    ).toEqual(starts(plan.visits.map((visit) => Date.parse(visit.startsAt))));
    const ids = events.map((event) => String(event.getFirstPropertyValue('uid')));
    expect(new Set(ids).size).toBe(plan.visits.length);
    for (const visit of plan.visits) expect(ids).toContain(`${encodeURIComponent(visit.id)}@sumpwise`);
  });

  test('its table runs nothing in a spreadsheet', () => {
    const [visit] = plan.visits;
    const rows = planCsv({
      ...plan,
      visits: [{ ...visit, unitNumber: '=HYPERLINK("x")', technician: '@sum' }],
    });
    const row = rows.split('\n')[1];
    expect(row.startsWith(`"'=HYPERLINK(""x"")"`)).toBe(true);
    expect(row).toContain(",'@sum,");
    expect(planCsv(plan).trim().split('\n')).toHaveLength(1 + plan.visits.length + plan.notPlaced.length);
  });
});

test('wall clock times keep their hour over a change of clocks', () => {
  // New York 2026: summer time from 8 March to 1 November (IANA time zone database)
  const offset = (iso: string) => zoneOffset('America/New_York', dayFromIso(iso), 480);
  expect(offset('2026-03-07')).toBe(-300);
  expect(offset('2026-03-08')).toBe(-240);
  expect(offset('2026-10-31')).toBe(-240);
  expect(offset('2026-11-01')).toBe(-300);
  expect(zoneOffset('Nowhere/At_All', 20_543, 480)).toBe(0);
});
