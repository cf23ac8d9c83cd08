import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { UnitStory } from '../../models/schema/story.ts';
import { ownFleet, writeFiles } from '../server/ownFleet.ts';
import { startServer, type Running } from '../server/running.ts';
import { batchRow } from './batchRow.ts';
import { builtPages, launchBrowser, openPage, settled } from './browser.ts';

let server: Running;
let browser: Browser;
beforeAll(async () => {
  await builtPages();
  server = await startServer();
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await server.stop();
});

/** Units in the list, those out of the window included. */
const listed = async (page: Page): Promise<number> =>
  Number(await page.locator('.attention-list').getAttribute('aria-rowcount')) - 1;

test('attention: a week narrows the list, the address keeps it, show all undoes it', async () => {
  const { page, faults } = await openPage(browser, { width: 1400 });
  await page.goto(server.address);
  await settled(page);
  await page.waitForSelector('canvas[data-drawn="yes"]');
  const all = await listed(page);
  await page.getByText('The same as a table').click();
  await page.getByRole('button', { name: 'past', exact: true }).click();
  await page.waitForFunction(() => location.search.includes('week=0'));
  await expect.poll(() => listed(page)).toBeLessThan(all);
  const narrowed = await listed(page);
  expect(narrowed).toBeGreaterThan(0);
  await page.reload();
  await settled(page);
  expect(await listed(page)).toBe(narrowed);
  await page.getByLabel('Site').selectOption('Harbor yard');
  await page.waitForFunction(() => location.search.includes('site='));
  expect(await listed(page)).toBeLessThanOrEqual(narrowed);
  await page.getByRole('button', { name: 'Show all', exact: true }).click();
  await expect.poll(() => listed(page)).toBe(all);
  expect(faults).toEqual([]);
  await page.context().close();
});

test('unit: by keyboard from the list to a record; a charge opens; what-if moves numbers', async () => {
  const { page, faults } = await openPage(browser, { width: 1400 });
  await page.goto(`${server.address}/?search=2202`);
  await settled(page);
  await page.locator('.attention-list a.unit-number').focus();
  await page.keyboard.press('Enter');
  await page.waitForURL('**/units/2202');
  await settled(page);
  await page.locator('h1', { hasText: 'Stop and check' }).waitFor();
  const term = page.getByRole('button', { name: 'Idle share', exact: true });
  await term.focus();
  await page.keyboard.press('Enter');
  await page
    .getByRole('note')
    .getByText(/Engine hours at idle divided by all engine hours.+Source:/)
    .waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('note').waitFor({ state: 'detached' });
  expect(await term.evaluate((button) => button === document.activeElement)).toBe(true);
  await page.locator('.charge').last().focus();
  await page.keyboard.press('Enter');
  await page.getByText('Oil charge', { exact: true }).waitFor();
  const link = page
    .getByRole('region', { name: 'List of records' })
    .getByRole('button', { name: /codes\.csv line \d+/ });
  await link.focus();
  await page.keyboard.press('Enter');
  await page.getByRole('complementary', { name: 'Record' }).getByText('P0016').waitFor();
  await page.getByText('What if: less idling').click();
  const advised = page.locator('tr', { hasText: 'Interval advised' });
  await advised.waitFor();
  const tried = advised.locator('td').nth(1);
  const before = await tried.textContent();
  await page.getByLabel(/Idle share of engine hours/).fill('0.05');
  await expect.poll(() => tried.textContent()).not.toBe(before);
  expect(faults).toEqual([]);
  await page.context().close();
});

test('unit: which limit governs the oil and when, wear and chance with ranges and what is behind them; its history on paper', async () => {
  const { page, faults } = await openPage(browser, { width: 1400 });
  await page.goto(`${server.address}/units/2202`);
  await settled(page);
  const { assessment, limits } = (await (
    await fetch(`${server.address}/api/units/2202`)
  ).json()) as UnitStory;
  const said = async (title: string): Promise<string> =>
    (await page.locator(`dt:text-is("${title}") + dd`).textContent())!;
  // the governing limit is the one that the table marks, and the due date lies within its own range
  expect(await said('Interval')).toMatch(/km or [\d,]+ h, governed by dispersancy$/);
  const limitTable = page.getByRole('region', { name: 'Limits', exact: true });
  expect(await limitTable.getByRole('row', { name: 'governs' }).allTextContents()).toEqual([
    expect.stringMatching(/^dispersancy/),
  ]);
  expect(await limitTable.getByRole('row').count()).toBe(limits.length + 1);
  const { dueOnEarliest, dueOn, dueOnLatest } = assessment.oil!;
  expect(dueOnEarliest! <= dueOn! && dueOn! <= dueOnLatest!).toBe(true);
  const days = [...(await said('Due')).matchAll(/\d+ [A-Z][a-z]+ \d{4}/g)].map(([day]) =>
    Date.parse(`${day} UTC`),
  );
  expect(days).toEqual([dueOn, dueOnEarliest, dueOnLatest].map((day) => Date.parse(`${day}T00:00Z`)));

  // each wear: low to high, most likely between; the finding behind it opens its record
  const wear = page.locator('section', { has: page.getByRole('heading', { name: 'Wear inside' }) });
  const ranges = [
    ...(await wear.textContent())!.matchAll(/([\d.]+) to ([\d.]+)(?: %)?, most likely (\d+(?:\.\d+)?)/g),
  ];
  expect(ranges).toHaveLength(3);
  for (const [, low, high, most] of ranges) {
    expect(Number(most)).toBeGreaterThanOrEqual(Number(low));
    expect(Number(most)).toBeLessThanOrEqual(Number(high));
  }
  await wear.getByText('The same as a table').first().click();
  await wear.getByRole('button', { name: 'findings.csv line 119' }).first().click();
  await page.getByRole('complementary', { name: 'Record' }).getByText('moderate').first().waitFor();
  await page.keyboard.press('Escape');
  const chance = page.locator('section', { has: page.getByRole('heading', { name: /^Chance of a timing/ }) });
  expect(await chance.locator('.sentence').textContent()).toMatch(/^about .+ in 10; .+ to .+$/);
  await chance.getByRole('row', { name: /correlation code seen.*×/ }).waitFor();

  await page.getByRole('link', { name: /service history/ }).click();
  await page.getByRole('heading', { name: 'Service history of unit 2202' }).waitFor();
  await settled(page);
  const lines = page.locator('.history-lines tbody tr');
  const without = await lines.count();
  await page.getByLabel('Meter readings too').check();
  await expect.poll(() => lines.count()).toBeGreaterThan(without);
  for (const source of await page.locator('.history-source').allTextContents())
    expect(source).toMatch(/\.csv, \d+$/);
  await page.emulateMedia({ media: 'print' });
  expect(await page.getByRole('navigation').first().isVisible()).toBe(false);
  const sheets = (await page.pdf({ format: 'A4' })).toString('latin1').match(/\/Type ?\/Page\b/g)!;
  expect(sheets.length).toBeGreaterThan(1);
  expect(faults).toEqual([]);
  await page.context().close();
});

test('intake: from the demo to own records, a held row mended, the batch taken back', async () => {
  const { page, faults } = await openPage(browser, { width: 1400 });
  await page.goto(server.address);
  await page.getByRole('button', { name: 'Begin with own records' }).click();
  await page.waitForURL('**/intake');
  await settled(page);
  await page.goto(server.address);
  await settled(page);
  expect(await page.locator('main').textContent()).toContain('There are no units yet');

  const files = writeFiles({
    ...ownFleet,
    'readings_more.csv': 'unit_number,read_on,odometer_km\nC3,2024-05-20,many\n',
  });
  await page.goto(`${server.address}/intake`);
  await page.locator('input[type=file]').setInputFiles(files.map((file) => file.path));
  await page.getByRole('heading', { name: 'What was understood' }).waitFor();
  expect(
    await page
      .getByText(/service\.csv/)
      .first()
      .textContent(),
  ).toContain('service.csv');
  await page.getByText('Profile of service.csv').click();
  await page.getByRole('region', { name: 'Profile of service.csv' }).getByText('odometer_km').waitFor();
  await page.getByRole('button', { name: /^Take in/ }).click();
  await page.getByText(/This is batch 1/).waitFor();

  await page.getByRole('button', { name: '1 row', exact: true }).click();
  const row = page.locator('.held-row');
  await row.getByLabel('odometer_km').fill('36500');
  await row.getByRole('button', { name: 'Take in as changed' }).click();
  await page.getByText('1 row decided.').waitFor();
  await page.getByRole('button', { name: 'Undo: open 1 row again' }).waitFor();

  const corrected = ownFleet['service.csv'].replace(',7400,failed', ',7650,failed');
  await page
    .locator('input[type=file]')
    .setInputFiles(writeFiles({ 'service.csv': corrected }).map((file) => file.path));
  await page.getByText(/Does this file replace that one row by row/).waitFor();
  const changed = page.getByRole('region', { name: 'Changed rows of service.csv' });
  expect(await changed.textContent()).toContain('7650');
  await page.getByRole('button', { name: 'Replace the earlier rows' }).click();
  await page.getByRole('button', { name: 'Take in 1 row' }).click();
  await page.getByText(/This is batch 2/).waitFor();
  // the report is there before the list below it has been read again
  await batchRow(page, '2').getByRole('button', { name: 'Take back', exact: true }).click();
  await page.getByRole('button', { name: 'Take batch 2 back' }).click();
  await page.getByText(/Batch 2 is taken back/).waitFor();

  await page.goto(server.address);
  await settled(page);
  expect(await page.locator('.sentence').textContent()).toMatch(/B2/);
  await page.goto(`${server.address}/intake`);
  await settled(page);
  await batchRow(page, '1').getByRole('button', { name: 'Take back', exact: true }).click();
  await page.getByRole('button', { name: 'Take batch 1 back' }).click();
  await page.getByText(/Batch 1 is taken back/).waitFor();
  expect(faults).toEqual([]);

  await page
    .locator('input[type=file]')
    .setInputFiles(writeFiles({ 'units.csv': 'unit_number,site\n' }).map((file) => file.path));
  await page.getByText(/no row below it/).waitFor();
  await page.context().close();
});

test('server gone: the page says so and what to do', async () => {
  const { page } = await openPage(browser, { width: 1400 });
  await page.goto(`${server.address}/settings`);
  await settled(page);
  await page.route('**/api/**', (route) => route.abort());
  await page.getByLabel('Units of measure').selectOption('us');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByText(/The server does not answer/).waitFor();
  expect(await page.getByLabel('Units of measure').inputValue()).toBe('us');
  // when it answers again nothing has to be chosen anew
  await page.unroute('**/api/**');
  await page.getByLabel('Currency').selectOption('EUR');
  await page.getByLabel('First day of the week').selectOption('sunday');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByText(/Saved\. Calls/).waitFor();
  // no earlier value stands beside that word
  expect(await page.getByLabel('Currency').inputValue()).toBe('EUR');
  const kept = (await (await fetch(`${server.address}/api/settings`)).json()) as Record<string, unknown>;
  expect(kept).toMatchObject({ measures: 'us', currency: 'EUR', firstDayOfWeek: 'sunday' });
  await page.context().close();
});
