import { readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { takeIn } from '../../server/services/takeIn.ts';
import { writeFiles } from '../server/ownFleet.ts';
import { startServer, type Running } from '../server/running.ts';
import { twoUnits } from '../server/twoUnits.ts';
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

describe('two units worked by hand', () => {
  test('the page shows them to the cent, with a cent too little said, and a list that names nobody refused', async () => {
    const own = await startServer();
    const files = writeFiles(twoUnits);
    await takeIn(own.paths.ownStore, files, { dryRun: false, by: 'test', today: '2024-06-01' });
    const { page, faults } = await openPage(browser, { width: 1400 });
    const cells = async (unit: string): Promise<(string | null)[]> =>
      page.getByRole('row').filter({ hasText: unit }).locator('td').allTextContents();
    await page.goto(`${own.address}/money?amount=772.34&months=12&mustDo=P1&mustNot=P2`);
    await page.getByRole('heading', { name: 'What the money buys' }).waitFor();
    expect((await cells('P1'))[3]).toBe('US$772.35');
    expect(await page.getByRole('row', { name: 'Together' }).textContent()).toContain('US$772.35');
    expect(await page.getByText('1 renewal for').textContent()).toContain(
      '1 renewal for US$772.35. Of this parts US$412.35 and labour US$360; downtime of the work, beside it, about US$200.',
    );
    await page.getByText(/What must be done is \D*0\.01 above the limits/).waitFor();
    await page.getByText('P2: on the list of units to leave alone').waitFor();
    await page.goto(`${own.address}/money?amount=1398.15&months=12&mustDo=P1,P2`);
    await page.getByText('2 renewals for').waitFor();
    expect([(await cells('P1'))[3], (await cells('P2'))[3]]).toEqual(['US$772.35', 'US$625.80']);
    expect(await page.getByText('above the limits').count()).toBe(0);
    expect(faults).toEqual([]);
    await page.goto(`${own.address}/money?amount=1000&months=12&mustDo=Z9:look`);
    await page.getByText('mustDo: there is no unit Z9 in service').waitFor();
    await page.context().close();
    await own.stop();
    rmSync(dirname(files[0].path), { recursive: true, force: true });
  });
});

describe('the money page', () => {
  for (const width of [1400, 360])
    test(`at ${width}: the case, its list and its address, without fault or violation`, async () => {
      const { page, faults } = await openPage(browser, { width, scheme: 'light' });
      await page.goto(`${server.address}/money?amount=8000&months=12`);
      await page.getByLabel('Months', { exact: true }).fill('18');
      await page.getByRole('heading', { name: 'What the money buys' }).waitFor();
      // what is typed while the case is worked out outlives its arrival
      expect(await page.getByLabel('Months', { exact: true }).inputValue()).toBe('18');
      await page.getByText('is to be set for').waitFor();
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
        // what is handed on: the report on paper and the workbook, each whole (signatures of PDF and ZIP files)
        for (const [name, signature] of [
          ['report (PDF)', '%PDF-'],
          ['workbook (XLSX)', 'PK\u0003\u0004'],
        ] as const) {
          const link = await page.getByRole('link', { name }).getAttribute('href');
          const bytes = await (await page.request.get(server.address + link!)).body();
          expect(bytes.subarray(0, signature.length).toString('latin1')).toBe(signature);
          expect(bytes.length).toBeGreaterThan(5000);
        }
        await page.getByLabel('Amount', { exact: true }).fill('0');
        await page.getByRole('button', { name: 'Work it out' }).click();
        await page.getByText('buys nothing that is expected to pay').waitFor();
        expect(page.url()).toContain('amount=0');
      }
      expect(faults).toEqual([]);
      await page.context().close();
    });
});
