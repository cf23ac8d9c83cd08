import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startServer, type Running } from '../server/running.ts';
import { builtPages, launchBrowser, openPage, settled } from './browser.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const pages = [
  '/',
  '/units',
  '/units/2202',
  '/units/6661',
  '/intake',
  '/proof',
  '/method',
  '/samples',
  '/visits',
  '/settings',
  '/monitor',
  '/money',
  '/nowhere',
];

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

interface AxeViolation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string }[];
}

const views = [
  { name: 'desk, light', width: 1400, scheme: 'light' },
  { name: 'desk, dark', width: 1400, scheme: 'dark' },
  { name: 'phone', width: 360, scheme: 'light' },
] as const;

describe('every page of the demo', () => {
  for (const view of views)
    test(`${view.name}: no fault in the console, nothing wider than the screen, no accessibility violation`, async () => {
      const { page, faults } = await openPage(browser, view);
      for (const path of pages) {
        await page.goto(server.address + path);
        await settled(page);
        const overflow = await page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        );
        expect(overflow, `${path} is ${overflow} px wider than the screen`).toBeLessThanOrEqual(0);
        await page.evaluate(axe);
        const violations = await page.evaluate(async () => {
          const tool = (window as unknown as { axe: { run: () => Promise<{ violations: AxeViolation[] }> } })
            .axe;
          return (await tool.run()).violations.map(
            (violation) => `${violation.id}: ${violation.nodes[0]?.html.slice(0, 160) ?? ''}`,
          );
        });
        expect(violations, path).toEqual([]);
        expect(await page.title(), path).toMatch(/Sumpwise/);
      }
      expect(faults).toEqual([]);
      await page.context().close();
    });
});
