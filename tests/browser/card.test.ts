import type { Locator, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Assessment } from '../../models/schema/assessment.ts';
import type { JobCard } from '../../models/schema/jobCard.ts';
import { get, startOwnShop } from '../server/shopFleet.ts';
import { expectSound, openPage, settled, siteOf } from './browser.ts';
import { fillOilCard } from './fillCard.ts';

const site = siteOf(startOwnShop);

const dueOf = async (): Promise<string> =>
  (await get<Assessment>(site.server, '/api/assessment')).units.find(({ unitNumber }) => unitNumber === 'A1')!
    .oil!.dueOn!;

test('an oil card closed on a phone moves the due date; what was typed outlives a dropped connection', async () => {
  const { page, faults } = await openPage(site.browser, { width: 360 });
  const before = await dueOf();
  await page.goto(`${site.server.address}/card/new?unit=A1&jobs=oil_change`);
  await settled(page);
  await expectSound(page);
  await page.getByRole('button', { name: 'Close the card' }).click();
  await page.locator('.card-fault', { hasText: 'technician must be the name' }).waitFor();
  const { card } = await get<{ card: JobCard }>(site.server, '/api/cards?unit=A1&jobs=oil_change');
  await fillOilCard(page, card, 5);
  await page.route('**/api/cards', (route) => route.abort());
  await page.getByRole('button', { name: 'Close the card' }).click();
  await page.getByText(/kept on this device and sent again by itself/).waitFor();
  await page.reload();
  await settled(page);
  expect(await page.getByLabel(/^Your name/).inputValue()).toBe('Ines Farrow');
  await page.unroute('**/api/cards');
  await page.reload();
  await page.getByText('Job card of unit A1: sent.').waitFor();
  expect(await page.getByText('Not sent yet').count()).toBe(0);
  expect((await dueOf()) > before).toBe(true);
  // the refusal and the aborted send are the only things that may be noted
  expect(faults.filter((words) => !/ERR_FAILED|422/.test(words))).toEqual([]);
  await page.context().close();
});

test('a timing card on a phone: the second person is another, the procedure is named, then it closes', async () => {
  const { page, faults } = await openPage(site.browser, { width: 360 });
  await page.goto(`${site.server.address}/card/new?unit=B1&jobs=timing_set,phaser`);
  await settled(page);
  expect(
    await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
  ).toBeLessThanOrEqual(0);
  // gloves: every line that is ticked is a large target (44 px: WCAG 2.2, target size enhanced)
  for (const line of (await page.locator('.card-tick').all()).slice(0, 5))
    expect((await line.boundingBox())?.height).toBeGreaterThanOrEqual(44);
  const { card } = await get<{ card: JobCard }>(site.server, '/api/cards?unit=B1&jobs=timing_set,phaser');
  await page.evaluate(async () => {
    for (const tick of document.querySelectorAll<HTMLInputElement>('.card-steps input[type=checkbox]')) {
      tick.click();
      await new Promise(requestAnimationFrame);
    }
  });
  await page.getByLabel('codes, or none').fill('P0016, freeze frame kept');
  for (const gauge of await page.getByLabel('pressure, kPa').all()) await gauge.fill('180');
  await page.locator('.card-steps select').selectOption('whole');
  await page.getByLabel(/^Your name/).fill('Ines Farrow');
  await page.getByLabel(/^Odometer/).fill(String((card.lastOdometerKm ?? 0) + 30));
  await page.getByLabel('Oil grade filled').fill('5W-20');
  await page.getByLabel('Oil filled, L').fill('5.7');
  await page.getByLabel(/^Used oil collected/).fill('5');
  await page.getByLabel('timing set', { exact: true }).check();
  await page.getByLabel("Second person's name").fill('ines farrow');
  await page.getByRole('button', { name: 'Close the card' }).click();
  await page.locator('.card-fault', { hasText: 'must be another than Ines Farrow' }).waitFor();
  await page.locator('.card-fault', { hasText: 'procedure that was followed must be named' }).waitFor();
  await page.getByLabel("Second person's name").fill('Tobin Karr');
  await page.getByLabel("Maker's procedure followed").fill('workshop manual, timing drive, revision 3');
  await page.getByRole('button', { name: 'Close the card' }).click();
  await page.getByText('Card closed.').waitFor();
  expect(faults.filter((words) => !/422/.test(words))).toEqual([]);
  await page.context().close();
});

/** Presses Tab until what is wanted has the focus; each stop must be seen, and the way there is short. */
async function tabTo(page: Page, wanted: Locator, most = 80): Promise<void> {
  for (let presses = 0; presses < most; presses += 1) {
    await page.keyboard.press('Tab');
    if (await wanted.evaluate((element) => element === document.activeElement)) {
      // WCAG 2.2, 2.4.7: the focus is visible
      const outline = await wanted.evaluate((element) => getComputedStyle(element).outlineStyle);
      expect(outline).not.toBe('none');
      return;
    }
  }
  throw new Error(`${most} presses of Tab do not reach ${wanted.toString()}`);
}

test('without a mouse: from Attention over the unit to its card, down the card, closed', async () => {
  const { page, faults } = await openPage(site.browser, { width: 1400 });
  await page.goto(site.server.address);
  await settled(page);
  await tabTo(page, page.getByRole('link', { name: 'To the page' }));
  await page.keyboard.press('Enter');
  await tabTo(page, page.locator('.attention-list a.unit-number', { hasText: 'C3' }));
  await page.keyboard.press('Enter');
  await page.waitForURL('**/units/C3');
  await settled(page);
  await tabTo(page, page.getByRole('link', { name: 'Job card', exact: true }));
  await page.keyboard.press('Enter');
  await page.waitForURL('**/card/new?unit=C3');
  await settled(page);
  await tabTo(page, page.getByLabel('oil and filter'));
  await page.keyboard.press('Space');
  await tabTo(page, page.getByRole('button', { name: 'Make the card' }));
  await page.keyboard.press('Enter');
  await page.locator('.card-steps').first().waitFor();
  await settled(page);
  const { card } = await get<{ card: JobCard }>(site.server, '/api/cards?unit=C3&jobs=oil_change');
  const due = async (): Promise<string> =>
    (await get<Assessment>(site.server, '/api/assessment')).units.find(
      ({ unitNumber }) => unitNumber === 'C3',
    )!.oil!.dueOn!;
  const before = await due();
  const typed: readonly [RegExp, string][] = [
    [/^reminder said/, 'due'],
    [/^Your name/, 'Ines Farrow'],
    [/^Odometer/, String((card.lastOdometerKm ?? 1000) + 40)],
    [/^Oil grade filled/, card.oil?.grade ?? '5W-40'],
    [/^Oil filled, L/, '7'],
    [/^Used oil collected/, '6.5'],
  ];
  // down the card as it stands, ticking and typing where the focus comes
  for (let presses = 0, at = ''; !/^Close the card/.test(at); presses += 1) {
    expect(presses, 'the end of the card is reached').toBeLessThan(80);
    await page.keyboard.press('Tab');
    at = await page.evaluate(() => {
      const focused = document.activeElement as HTMLInputElement;
      const words = focused.labels?.[0]?.textContent ?? focused.textContent;
      return `${focused.type === 'checkbox' && !focused.checked ? 'tick ' : ''}${words.trim()}`;
    });
    if (at.startsWith('tick ')) await page.keyboard.press('Space');
    const text = typed.find(([label]) => label.test(at))?.[1];
    if (text !== undefined) await page.keyboard.type(text);
  }
  await page.keyboard.press('Enter');
  await page.getByText('Card closed.').waitFor();
  expect((await due()) > before).toBe(true);
  expect(faults).toEqual([]);
  await page.context().close();
});
