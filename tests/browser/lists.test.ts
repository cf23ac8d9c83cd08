import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startServer, type Running } from '../server/running.ts';
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

test('units: columns, order, marks, a kept view and the list as a file', async () => {
  const { page, faults } = await openPage(browser, { width: 1400 });
  await page.goto(`${server.address}/units`);
  await settled(page);
  const table = page.locator('table.unit-list');
  const rows = Number(await table.getAttribute('aria-rowcount')) - 1;
  expect(rows).toBeGreaterThan(100);
  await page.mouse.wheel(0, 100_000);
  await page.waitForFunction(
    (count) => document.querySelector(`tr.line[aria-rowindex="${count + 1}"]`) !== null,
    rows,
  );

  await page.mouse.wheel(0, -100_000);
  await page.waitForFunction(
    () => window.scrollY === 0 && document.querySelector('tr.line[aria-rowindex="2"]') !== null,
  );
  await page.getByRole('button', { name: 'Idle share' }).click();
  await page.waitForFunction(() => location.search.includes('order=idle'));
  await page.getByText('Columns', { exact: true }).click();
  await page.getByLabel('Phaser wear').check();
  await page.waitForFunction(() => location.search.includes('phaser'));
  await table.locator('th', { hasText: 'Phaser wear' }).waitFor();

  await page.getByText('Keep this view').click();
  await page.getByLabel('Name of this view').fill('Idlers');
  await page.getByRole('button', { name: 'Keep on this computer' }).click();
  await page.goto(`${server.address}/units`);
  await settled(page);
  await page.getByText('Kept views (1)').click();
  await page.getByRole('link', { name: 'Idlers' }).click();
  await page.waitForFunction(() => location.search.includes('order=idle'));

  await page.getByLabel('Mark 2202').check();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save the 1 marked as CSV' }).click(),
  ]);
  const lines = readFileSync(await download.path(), 'utf8')
    .trim()
    .split('\n');
  expect(lines).toHaveLength(2);
  expect(lines[0]).toContain('Phaser wear');
  expect(lines[1]).toMatch(/^2202,Stop and check,/);
  expect(faults).toEqual([]);
  await page.context().close();
});
