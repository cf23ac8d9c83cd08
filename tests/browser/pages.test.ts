import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { expectPhone, expectSound, openPage, settled, siteOf } from './browser.ts';

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
    // what takes long is begun once the fleet is known, and ready when its turn comes
    if (path === pages[0])
      for (const slow of ['/money', '/proof']) {
        const begun = await page.context().newPage();
        await begun.goto(site.server.address + slow);
        await begun.locator('.loading').first().waitFor();
        await begun.close();
      }
    await expectSound(page);
    expect(await page.title(), path).toMatch(/Sumpwise/);
    // only colours differ in the dark
    await page.emulateMedia({ colorScheme: 'dark' });
    await expectSound(page, ['color-contrast']);
    await page.emulateMedia({ colorScheme: 'light' });
    await page.setViewportSize({ width: 360, height: 900 });
    await expectSound(page);
    await expectPhone(page);
    await page.setViewportSize({ width: 1400, height: 900 });
  }
  expect(faults).toEqual([]);
  await page.context().close();
}, 600_000);

test('proof as it is read: what was said and what happened, a day of it, a failure with its record, its unit; a day that can not be judged is said', async () => {
  const { page, faults } = await openPage(site.browser, { width: 1400 });
  await page.goto(`${site.server.address}/proof`);
  await settled(page);
  const sentence = page.locator('.sentence');
  const [said, happened] = [...(await sentence.textContent())!.matchAll(/\d+\.\d/g)].map(Number);
  // the days together are the sum of each, as a reader would add them up; each is rounded to a tenth
  const days = await page.locator('summary', { hasText: /^From / }).allTextContents();
  expect(days.length).toBeGreaterThan(1);
  const sum = (words: RegExp): number => days.reduce((total, day) => total + Number(words.exec(day)![1]), 0);
  expect(sum(/ ([\d.]+) said/)).toBeCloseTo(said, 0);
  expect(sum(/ ([\d.]+) happened/)).toBeCloseTo(happened, 0);
  await page
    .locator('summary', { hasText: /^From / })
    .first()
    .click();
  await page.locator('details[open] table').first().waitFor();

  // a dark screen's chart is drawn anew for paper, in black
  await page.emulateMedia({ colorScheme: 'dark' });
  const black = (): Promise<number> =>
    page.evaluate(() => {
      const canvas = document.querySelector('canvas')!;
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
      let count = 0;
      for (let at = 0; at < data.length; at += 4)
        if (data[at] + data[at + 1] + data[at + 2] === 0 && data[at + 3] === 255) count += 1;
      return count;
    });
  expect(await black()).toBe(0);
  await page.emulateMedia({ colorScheme: 'dark', media: 'print' });
  await expect.poll(black).toBeGreaterThan(100);
  await page.emulateMedia({ colorScheme: 'light', media: null });

  const failure = page.locator('tr', { hasText: 'failed on' }).first();
  const unit = await failure.getByRole('link').first().textContent();
  await failure.getByRole('button', { name: /record/i }).click();
  const record = page.getByRole('complementary', { name: 'Record' });
  await record.getByText(unit!, { exact: true }).waitFor();
  await page.keyboard.press('Escape');
  await record.waitFor({ state: 'detached' });
  await failure.getByRole('link').first().click();
  await page.locator('h1', { hasText: `Unit ${unit}` }).waitFor();
  await page.goBack();
  await settled(page);

  await page.getByLabel('Days to predict from').fill('2030-01-01');
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page
    .getByText(/2030/)
    .filter({ hasText: /not known yet/ })
    .first()
    .waitFor();
  await page.getByRole('link', { name: 'Show the usual days' }).click();
  await sentence.filter({ hasText: 'happened' }).waitFor();
  expect(faults.filter((words) => !/422|willReadFrequently/.test(words))).toEqual([]);
  await page.context().close();
});
