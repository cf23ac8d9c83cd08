import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Assessment } from '../../models/schema/assessment.ts';
import { get, startShop } from '../server/shopFleet.ts';
import type { Running } from '../server/running.ts';
import { builtPages, launchBrowser, openPage, settled } from './browser.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let server: Running;
let browser: Browser;
beforeAll(async () => {
  await builtPages();
  server = await startShop();
  await fetch(`${server.address}/api/own`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: '{}',
  });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await server.stop();
});

const dueOf = async (): Promise<string> =>
  (await get<Assessment>(server, '/api/assessment')).units.find(({ unitNumber }) => unitNumber === 'A1')!.oil!
    .dueOn!;

test('an oil card closed on a phone moves the due date; what was typed outlives a dropped connection', async () => {
  const { page, faults } = await openPage(browser, { width: 360 });
  const before = await dueOf();
  await page.goto(`${server.address}/card/new?unit=A1&jobs=oil_change`);
  await settled(page);
  await page.evaluate(axe);
  const violations = await page.evaluate(async () =>
    (
      await (window as unknown as { axe: { run: () => Promise<{ violations: { id: string }[] }> } }).axe.run()
    ).violations.map(({ id }) => id),
  );
  expect(violations).toEqual([]);
  expect(
    await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
  ).toBeLessThanOrEqual(0);
  await page.getByRole('button', { name: 'Close the card' }).click();
  await page.locator('.card-fault', { hasText: 'technician must be the name' }).waitFor();
  for (const tick of await page.locator('.card-steps input[type=checkbox]').all()) await tick.check();
  const { card } = await get<{ card: { lastOdometerKm: number } }>(
    server,
    '/api/cards?unit=A1&jobs=oil_change',
  );
  await page.getByLabel(/^Your name/).fill('Ines Farrow');
  await page.getByLabel(/^Odometer/).fill(String(card.lastOdometerKm + 40));
  await page.getByLabel('Oil grade filled').fill('5W-30');
  await page.getByLabel('Oil filled, L').fill('5');
  await page.getByLabel(/^Used oil collected/).fill('4.6');
  await page.getByLabel('Filter changed').check();
  await page.getByLabel('reminder said').fill('due');
  await page.route('**/api/cards', (route) => route.abort());
  await page.getByRole('button', { name: 'Close the card' }).click();
  await page.getByText(/kept on this device and offered again/).waitFor();
  await page.unroute('**/api/cards');
  await page.reload();
  await settled(page);
  expect(await page.getByLabel(/^Your name/).inputValue()).toBe('Ines Farrow');
  await page.getByRole('button', { name: 'Send it now' }).click();
  await page.getByText('Not sent yet').waitFor({ state: 'detached' });
  expect((await dueOf()) > before).toBe(true);
  // the refusal and the aborted send are the only things that may be noted
  expect(faults.filter((words) => !/ERR_FAILED|422/.test(words))).toEqual([]);
  await page.context().close();
}, 120_000);
