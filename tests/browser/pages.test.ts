import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { expectSound, openPage, settled, siteOf } from './browser.ts';

const pages = [
  '/',
  '/units',
  '/units/2202',
  '/units/6661',
  '/units/2202/history',
  '/find?unit=22',
  '/desk?unit=2202',
  '/samples',
  '/wear',
  '/card/new',
  '/card/new?unit=2202&jobs=oil_change',
  '/intake',
  '/money',
  '/proof',
  '/method',
  '/visits',
  '/shop/supplies',
  '/shop/oil',
  '/shop/records',
  '/settings',
  '/monitor',
  '/nowhere',
];
/** Pages that are looked at in the same way by a test of their own. */
const elsewhere = ['/shop'];

const site = siteOf();

test('every page that has an address is looked at', () => {
  const source = readFileSync(new URL('../../web/app.tsx', import.meta.url), 'utf8');
  const addresses = [...source.matchAll(/<Route path="([^"]+)"/g)].map(([, path]) => path);
  expect(addresses.length).toBeGreaterThan(10);
  const seen = [...pages, ...elsewhere].map((path) => path.replace(/\?.*/, ''));
  const missed = addresses.filter((address) => {
    const form = new RegExp(`^${address.replace(/:[a-zA-Z]+/g, '[^/]+')}$`);
    return !seen.some((path) => form.test(path));
  });
  expect(missed).toEqual([]);
});

test('every page of the demo, at a desk, in the dark and on a phone: no fault in the console, nothing wider than the screen, no accessibility violation', async () => {
  const { page, faults } = await openPage(site.browser, { width: 1400 });
  for (const path of pages) {
    await page.goto(site.server.address + path);
    await settled(page);
    await expectSound(page);
    expect(await page.title(), path).toMatch(/Sumpwise/);
    // only colours differ in the dark
    await page.emulateMedia({ colorScheme: 'dark' });
    await expectSound(page, ['color-contrast']);
    await page.emulateMedia({ colorScheme: 'light' });
    await page.setViewportSize({ width: 360, height: 900 });
    await expectSound(page);
    await page.setViewportSize({ width: 1400, height: 900 });
  }
  expect(faults).toEqual([]);
  await page.context().close();
}, 420_000);
