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

test('a long list on a phone: each line as high as what it says, to the end and back', async () => {
  const { page, faults } = await openPage(browser, { width: 360, height: 760 });
  await page.goto(server.address);
  await settled(page);
  const table = page.locator('table.attention-list');
  const rows = Number(await table.getAttribute('aria-rowcount')) - 1;
  const drawn = await table.locator('tr.line').evaluateAll((lines) => lines.map((line) => line.clientHeight));
  expect(drawn.length).toBeLessThan(rows);
  expect(new Set(drawn).size).toBeGreaterThan(1);
  // what the window shows has to be drawn wherever it stands, and nothing of it cut
  const shown = (): Promise<string[]> =>
    page.evaluate(() => {
      const body = document.querySelector('.attention-list tbody')!.getBoundingClientRect();
      const lines = [...document.querySelectorAll('.attention-list tr.line')];
      const [first, last] = [lines[0]!, lines.at(-1)!].map((line) => line.getBoundingClientRect());
      return [
        ...(first!.top <= Math.max(0, body.top) + 1 ? [] : ['empty above']),
        ...(last!.bottom >= Math.min(innerHeight, body.bottom) - 1 ? [] : ['empty below']),
        ...lines
          .flatMap((line) => [line, ...line.querySelectorAll('.clip')])
          .filter((part) => part.scrollHeight > part.clientHeight + 2)
          .map((part) => `cut: ${part.textContent}`),
      ];
    });
  for (const share of [0.4, 1, 0.6, 0]) {
    await page.evaluate((at) => scrollTo(0, at * document.documentElement.scrollHeight), share);
    await expect.poll(shown).toEqual([]);
  }
  await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
  await page.waitForFunction(
    (count) => document.querySelector(`.attention-list tr.line[aria-rowindex="${count + 1}"]`) !== null,
    rows,
  );
  expect(faults).toEqual([]);
  await page.context().close();
});
