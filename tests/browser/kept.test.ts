import type { BrowserContext, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { JobCard } from '../../models/schema/jobCard.ts';
import type { Visit } from '../../models/schema/visit.ts';
import { openStore } from '../../server/store/openStore.ts';
import { get, post, shopDay, startOwnShop } from '../server/shopFleet.ts';
import { openPage, settled, siteOf } from './browser.ts';
import { fillOilCard } from './fillCard.ts';

const site = siteOf(startOwnShop);

interface Batches {
  readonly batches: readonly { readonly id: string }[];
}
const batches = async (): Promise<number> =>
  (await get<Batches>(site.server, '/api/intake/batches')).batches.length;

const ventilation = (page: Page) => page.getByRole('group', { name: 'Crankcase ventilation' });

/** Enters findings on the desk that do not reach the server. */
async function enter(page: Page, unit: string): Promise<void> {
  await page.goto(`${site.server.address}/desk?unit=${unit}`);
  await settled(page);
  await ventilation(page).getByLabel('Faulty').check();
  await page.getByLabel('Your name').fill('Maud Serra');
  await page.getByRole('button', { name: 'Keep with the unit' }).click();
  await page.getByText(/The entry is kept on this device and sent again by itself/).waitFor();
}

const anotherPage = async (context: BrowserContext, path: string): Promise<Page> => {
  const page = await context.newPage();
  await page.goto(site.server.address + path);
  return page;
};

test('entries that wait are sent when pages open, oldest first and once, and what was typed for them is gone', async () => {
  const { page } = await openPage(site.browser, { width: 1400 });
  const context = page.context();
  await context.route('**/findings', (route) => route.abort());
  const before = await batches();
  for (const unit of ['B1', 'A1']) await enter(page, unit);
  await page.goto('about:blank');
  await context.unroute('**/findings');
  const sent: string[] = [];
  context.on('request', (request) => {
    if (request.url().endsWith('/findings')) sent.push(new URL(request.url()).pathname);
  });
  const pages = await Promise.all(['/find', '/method'].map((path) => anotherPage(context, path)));
  await expect.poll(batches).toBe(before + 2);
  const told = (one: Page): Promise<string> => one.locator('body').innerText();
  await expect
    .poll(async () => (await Promise.all(pages.map(told))).join(' '))
    .toMatch(/Findings for unit A1: sent\.|Findings for unit A1; Findings for unit B1: sent\./);
  expect(sent).toEqual(['/api/units/B1/findings', '/api/units/A1/findings']);
  await pages[0].goto(`${site.server.address}/desk?unit=A1`);
  await pages[0].getByLabel('Your name').waitFor();
  expect(await ventilation(pages[0]).getByLabel('Faulty').isChecked()).toBe(false);
  expect(await pages[0].getByLabel('Your name').inputValue()).toBe('Maud Serra');
  expect(await pages[0].getByText('Not sent yet').count()).toBe(0);
  expect(await batches()).toBe(before + 2);
  await context.close();
});

test('a card of a visit that changed meanwhile stays with the reason, and closes when it is pressed again', async () => {
  const asked = await post<{ visit: Visit }>(site.server, '/api/visits', {
    unitNumber: 'A1',
    jobs: ['oil_change'],
    on: shopDay,
    reason: 'reminder',
    by: 'Ines Farrow',
  });
  const { id, version } = asked.body.visit;
  const { page } = await openPage(site.browser, { width: 360 });
  await page.goto(`${site.server.address}/card/${id}`);
  await settled(page);
  const { card } = await get<{ card: JobCard }>(site.server, `/api/visits/${id}/card`);
  await fillOilCard(page, card, 5);
  await page.route('**/card', (route) =>
    route.request().method() === 'POST' ? route.abort() : route.continue(),
  );
  await page.getByRole('button', { name: 'Close the card' }).click();
  await page.getByText(/The card is kept on this device and sent again by itself/).waitFor();
  const moved = await post(site.server, `/api/visits/${id}/state`, {
    version,
    by: 'Tobin Karr',
    to: 'booked',
  });
  expect(moved.status).toBe(200);
  await page.unroute('**/card');
  await page.goto(`${site.server.address}/find`);
  await page
    .getByText(/1 entry waits on this device: Job card of unit A1 \(not taken: .*Tobin Karr/)
    .waitFor();
  await page.getByRole('link', { name: 'Job card of unit A1' }).click();
  await page.getByText(/It was sent and not taken: .*Tobin Karr/).waitFor();
  await page.getByRole('button', { name: 'Send it now' }).click();
  await page
    .getByRole('alert')
    .filter({ hasText: /Tobin Karr/ })
    .waitFor();
  await page.getByText(/It was sent and not taken/).waitFor();
  expect(await page.getByLabel(/^Your name/).inputValue()).toBe('Ines Farrow');
  await page.getByRole('button', { name: 'Close the card' }).click();
  await page.getByText('Card closed.').waitFor();
  expect(
    await page.evaluate(() => Object.keys(localStorage).filter((name) => name.includes('kept-entry'))),
  ).toEqual([]);
  await page.context().close();
});

test('while records are written a change says that it waits, what is typed meanwhile stays, and a refusal says what to do', async () => {
  const { page, faults } = await openPage(site.browser, { width: 360 });
  const other = await openStore((await site.server.context.own()).file);
  const waits = page.getByText(/Your change is under way: it waits while records are written/);
  const note = page.getByRole('form', { name: 'Pick-up' }).getByLabel('Collector, slip number');
  const amount = page.getByRole('form', { name: 'Pick-up' }).getByLabel('Litres');
  await page.goto(`${site.server.address}/shop/oil`);
  await page.getByLabel('Your name').fill('Maud Serra');
  await amount.fill('20');
  await page.getByRole('form', { name: 'Pick-up' }).getByLabel('Site').selectOption('Millbank');
  await note.fill('slip 1');
  other.sqlite.exec('BEGIN IMMEDIATE');
  await page.getByRole('button', { name: 'Note the pick-up' }).click();
  await waits.waitFor();
  await note.fill('slip 2');
  other.sqlite.exec('ROLLBACK');
  await page.getByText('20 L picked up.').waitFor();
  await waits.waitFor({ state: 'detached' });
  expect(await note.inputValue()).toBe('slip 2');
  expect(await amount.inputValue()).toBe('');

  await page.goto(`${site.server.address}/desk?unit=C3`);
  await settled(page);
  await ventilation(page).getByLabel('Faulty').check();
  await page.getByLabel('Your name').fill('Maud Serra');
  other.sqlite.exec('BEGIN IMMEDIATE');
  await page.getByRole('button', { name: 'Keep with the unit' }).click();
  await page.getByRole('button', { name: 'Keeping …' }).waitFor();
  await page.getByLabel('Note', { exact: true }).fill('seen at the gate');
  other.sqlite.exec('ROLLBACK');
  await page.getByText(/Kept with unit C3 as batch/).waitFor();
  expect(await ventilation(page).getByLabel('Faulty').isChecked()).toBe(false);
  expect(await page.getByLabel('Note', { exact: true }).inputValue()).toBe('seen at the gate');

  const { patienceMs } = site.server.context.writes;
  site.server.context.writes.patienceMs = 1;
  await ventilation(page).getByLabel('Faulty').check();
  other.sqlite.exec('BEGIN IMMEDIATE');
  await page.getByRole('button', { name: 'Keep with the unit' }).click();
  await page
    .getByText(/and that takes long\. The entry is kept on this device and sent again by itself\./)
    .waitFor();
  other.sqlite.exec('ROLLBACK');
  site.server.context.writes.patienceMs = patienceMs;
  await page.reload();
  await page.getByText('Findings for unit C3: sent.').waitFor();
  expect(faults.filter((words) => !words.includes('503'))).toEqual([]);
  await other.close();
  await page.context().close();
});
