import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import type { PlanAnswer } from '../../models/schema/planEndpoints.ts';
import type { Assessment, UnitAssessment } from '../../models/schema/assessment.ts';
import type { JobCard } from '../../models/schema/jobCard.ts';
import type { Visit } from '../../models/schema/visit.ts';
import { get, post } from '../server/shopFleet.ts';
import { expectSound, openPage, settled, siteOf } from './browser.ts';
import { fillOilCard } from './fillCard.ts';

interface Component {
  getAllSubcomponents(name: string): Component[];
}
interface Calendars {
  default?: Calendars;
  parse(text: string): unknown;
  Component: new (parsed: unknown) => Component;
}
const loaded = createRequire(import.meta.url)('ical.js') as unknown as Calendars;
const ical = loaded.default ?? loaded;

const site = siteOf();

const planNow = async (): Promise<PlanAnswer> =>
  (await (await fetch(`${site.server.address}/api/plan?weeks=13`)).json()) as PlanAnswer;

const opened = async (width: number) => {
  const watched = await openPage(site.browser, { width });
  await watched.page.goto(`${site.server.address}/shop?weeks=13`);
  await watched.page.getByRole('heading', { name: 'Load against capacity' }).waitFor();
  return watched;
};

describe('the shop plan', () => {
  test('at 360 the week is a list by day, without fault or violation', async () => {
    const { page, faults } = await opened(360);
    expect(await page.locator('.week-grid').isVisible()).toBe(false);
    expect(await page.locator('.week-list .visit-block').count()).toBeGreaterThan(0);
    await expectSound(page);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test('a visit is locked and moved with the keyboard, its cost shown before; then the plan is published', async () => {
    const before = await planNow();
    const { page, faults } = await opened(1400);
    expect(await page.locator('.sentence').textContent()).toMatch(/^\d+ visits in 13 weeks; .+; .+\.$/);
    const block = page.locator('.week-grid .visit-block', { hasText: 'oil and filter' }).nth(1);
    const unit = (await block.locator('strong').textContent()) ?? '';
    await block.focus();
    await page.keyboard.press('Enter');
    const detail = page.locator('.visit-detail');
    await detail.getByRole('button', { name: 'Lock', exact: true }).focus();
    await page.keyboard.press('Enter');
    await page.getByText(`The visit of ${unit} is locked.`).waitFor();
    await detail.getByRole('button', { name: 'Unlock' }).waitFor();
    expect((await planNow()).plan.visits.find((visit) => visit.unitNumber === unit)?.locked).toBe(true);

    const days = Array.from({ length: 14 }, (_, ahead) =>
      new Date(Date.parse(before.plan.from) + (ahead + 9) * 86_400_000).toISOString().slice(0, 10),
    );
    let to: string | null = null;
    for (const day of days) {
      await detail.getByLabel('Day').fill(day);
      await detail.locator(`.move-cost[data-on="${day}"]`).waitFor();
      if (!(await detail.getByText('Not possible').isVisible())) {
        to = day;
        break;
      }
    }
    expect(to).not.toBeNull();
    expect(await detail.locator('.move-cost').textContent()).toMatch(
      /^The move to .+ (costs|saves) (nothing|\D*\d)/,
    );
    await detail.getByLabel('Day').press('Enter');
    await page.getByText(/is on .+ and locked there/).waitFor();
    expect((await planNow()).plan.visits.find((visit) => visit.unitNumber === unit)).toMatchObject({
      on: to,
      locked: true,
    });

    await expectSound(page);
    await page.getByLabel('Your name').fill('Ines Farrow');
    await page.getByRole('button', { name: 'Publish' }).click();
    await page.getByText(/visits are booked/).waitFor();
    const after = await planNow();
    expect(after.booked.length).toBeGreaterThan(0);
    const ics = await (await fetch(`${site.server.address}/api/plan.ics?weeks=13`)).text();
    const events = new ical.Component(ical.parse(ics)).getAllSubcomponents('vevent');
    expect(events).toHaveLength(after.plan.visits.length);
    await page.locator('.week-grid .visit-state', { hasText: 'booked' }).first().waitFor();

    // the published visits are moved on from their own page
    await page.goto(`${site.server.address}/visits`);
    await settled(page);
    await page.getByLabel('Your name').fill('Ines Farrow');
    const row = page.locator('table.visits tbody tr').first();
    await row.getByRole('button', { name: 'Put off' }).click();
    const form = row.locator('form');
    await form.getByLabel('New day').fill('2026-12-15');
    await form.getByLabel('Reason').fill('the route can not be covered');
    await form.getByLabel('Approved by').fill('Marl Tessen');
    await form.getByRole('button', { name: 'Put it off' }).click();
    await page.getByText(/: put off\.$/).waitFor();
    await page.locator('table.visits', { hasText: 'put off 1 time' }).waitFor();

    // another writer was faster: that is said, nothing of theirs is overwritten, and the row shows what they wrote
    const card = page.locator('table.visits tbody tr').nth(1).getByRole('link', { name: 'Job card' });
    const href = (await card.getAttribute('href'))!;
    const other = page.locator('table.visits tbody tr', { has: page.locator(`a[href="${href}"]`) });
    const id = href.split('/').at(-1)!;
    const { visit } = await get<{ visit: Visit }>(site.server, `/api/visits/${id}/card`);
    const arrived = await fetch(`${site.server.address}/api/visits/${id}/state`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ version: visit.version, by: 'Tobin Karr', to: 'arrived' }),
    });
    expect(arrived.status).toBe(200);
    await other.getByRole('button', { name: 'Did not come' }).click();
    await other
      .getByRole('alert')
      .filter({ hasText: /Tobin Karr/ })
      .waitFor();
    await other.getByRole('button', { name: 'Waits for parts' }).waitFor();
    expect((await get<{ visit: Visit }>(site.server, `/api/visits/${id}/card`)).visit.state).toBe('arrived');
    await expectSound(page);
    expect(faults.filter((words) => !/409/.test(words))).toEqual([]);
    await page.context().close();
  });

  test('a published oil visit is closed on a phone; attention, oil state, shelf and log follow', async () => {
    const { visits } = await get<{ visits: Visit[] }>(site.server, '/api/visits?state=booked');
    const cards = await Promise.all(
      visits
        .filter(({ jobs }) => jobs.length === 1 && jobs[0] === 'oil_change')
        .slice(0, 12)
        .map(({ id }) => get<{ visit: Visit; card: JobCard }>(site.server, `/api/visits/${id}/card`)),
    );
    const oilOf = (card: JobCard) => card.items.find(({ measure }) => measure === 'l');
    const found = cards.find(({ card }) => (oilOf(card)?.onHand ?? 0) >= 10);
    if (found === undefined) throw new Error('a published oil visit must have its oil on the shelf');
    const { visit, card } = found;
    const oil = oilOf(card)!;
    const unitNow = async (): Promise<UnitAssessment> =>
      (await get<Assessment>(site.server, '/api/assessment')).units.find(
        ({ unitNumber }) => unitNumber === visit.unitNumber,
      )!;
    const before = await unitNow();

    const { page, faults } = await openPage(site.browser, { width: 360 });
    await page.goto(`${site.server.address}/card/${visit.id}`);
    await settled(page);
    await fillOilCard(page, card, 5);
    await page.getByLabel(/^From the shelf: engine oil/).fill('5');
    await page.getByRole('button', { name: 'Close the card' }).click();
    await page.getByText('Card closed.').waitFor();
    const after = await unitNow();
    expect(after.oil!.dueOn! > before.oil!.dueOn!).toBe(true);
    expect(after.oil!.kmSinceChange!).toBeLessThan(100);
    expect(['book', 'plan', 'watch', 'clear']).toContain(after.call);

    await page.goto(`${site.server.address}/shop/supplies`);
    await settled(page);
    const shelf = page.getByRole('region', { name: 'Shelves' }).locator('tr', { hasText: oil.item });
    const left = String(oil.onHand! - 5);
    expect(await shelf.filter({ hasText: card.site! }).textContent()).toContain(left);
    await page.getByRole('region', { name: 'Movements' }).getByText('−5').waitFor();
    await expectSound(page);
    await page.goto(`${site.server.address}/shop/oil`);
    await settled(page);
    expect(await page.locator('.sentence').textContent()).toMatch(/^4.6 L of used oil stand in the drums/);
    await expectSound(page);
    await page.goto(`${site.server.address}/visits`);
    await settled(page);
    await page.getByRole('region', { name: 'Closed visits' }).getByText(visit.unitNumber).waitFor();
    await page.goto(`${site.server.address}/units/${visit.unitNumber}`);
    await settled(page);
    expect(await page.locator('main').textContent()).toMatch(/Since the change0 km/);
    expect(await page.locator('main').textContent()).toContain('service_job_card_');
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test('what a shop has is kept on its page at 360, without violation', async () => {
    const { page, faults } = await openPage(site.browser, { width: 360 });
    await page.goto(`${site.server.address}/shop/records`);
    await settled(page);
    await page.getByLabel('Your name').fill('Vera Linden');
    const form = page.getByRole('form', { name: 'Loan unit' });
    await form.getByLabel('Name or number').fill('Spare 1');
    await form.getByLabel('Site').selectOption('Harbor yard');
    await form.getByRole('button', { name: 'Add' }).click();
    await page.getByRole('region', { name: 'Loan units' }).getByText('Spare 1').waitFor();
    await expectSound(page);
    expect((await planNow()).loans.length).toBeGreaterThan(0);

    // ended by another meanwhile: that is said, and the line goes
    const { resources } = await get<{ resources: { id: number }[] }>(site.server, '/api/shop-records');
    const ended = await post(site.server, `/api/shop-records/resources/${resources[0].id}/end`, {
      by: 'Tobin Karr',
    });
    expect(ended.status).toBe(200);
    await page.getByRole('button', { name: 'End Spare 1' }).click();
    await page.getByRole('alert').filter({ hasText: 'ended already' }).waitFor();
    await page.getByRole('region', { name: 'Loan units' }).waitFor({ state: 'detached' });
    expect(faults.filter((words) => !/404/.test(words))).toEqual([]);
    await page.context().close();
  });
});
