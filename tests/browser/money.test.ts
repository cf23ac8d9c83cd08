import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startServer, type Running } from '../server/running.ts';
import { builtPages, launchBrowser, openPage } from './browser.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
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

describe('the money page', () => {
  for (const width of [1400, 360])
    test(`at ${width}: the case, its list and its address, without fault or violation`, async () => {
      const { page, faults } = await openPage(browser, { width, scheme: 'light' });
      await page.goto(`${server.address}/money?amount=8000&months=12`);
      await page.getByRole('heading', { name: 'What the money buys' }).waitFor({ timeout: 120_000 });
      await page.getByText('is to be set for').waitFor({ timeout: 120_000 });
      expect(await page.title()).toBe('Money · Sumpwise');
      expect(await page.locator('.sentence').first().textContent()).toMatch(
        /\$8,000 is expected to avoid about .+ failures in 12 months; .+ to .+\. It loses money in .+ futures\./,
      );
      const overflow = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(overflow).toBeLessThanOrEqual(0);
      await page.evaluate(axe);
      const violations = await page.evaluate(async () => {
        const tool = (window as unknown as { axe: { run: () => Promise<{ violations: { id: string }[] }> } })
          .axe;
        return (await tool.run()).violations.map(({ id }) => id);
      });
      expect(violations).toEqual([]);
      if (width === 1400) {
        await page.getByLabel('Amount', { exact: true }).fill('0');
        await page.getByRole('button', { name: 'Work it out' }).click();
        await page.getByText('buys nothing that is expected to pay').waitFor({ timeout: 120_000 });
        expect(page.url()).toContain('amount=0');
      }
      expect(faults).toEqual([]);
      await page.context().close();
    });
});
