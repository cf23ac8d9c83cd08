import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { deskFleet } from '../server/deskFleet.ts';
import { writeFiles } from '../server/ownFleet.ts';
import { startServer, type Running } from '../server/running.ts';
import { builtPages, launchBrowser, openPage, settled } from './browser.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let server: Running;
let browser: Browser;
beforeAll(async () => {
  await builtPages();
  server = await startServer();
  const uploads: string[] = [];
  for (const { name, path } of writeFiles(deskFleet())) {
    const answer = await fetch(`${server.address}/api/uploads?name=${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: readFileSync(path),
    });
    uploads.push(((await answer.json()) as { upload: string }).upload);
  }
  const post = (path: string, body: unknown): Promise<Response> =>
    fetch(server.address + path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  await post('/api/own', {});
  expect((await post('/api/intake', { uploads })).status).toBe(200);
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await server.stop();
});

async function soundPage(page: Page): Promise<void> {
  const overflow = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(overflow).toBeLessThanOrEqual(0);
  await page.evaluate(axe);
  const violations = await page.evaluate(async () => {
    const tool = (
      window as unknown as {
        axe: { run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
      }
    ).axe;
    return (await tool.run()).violations.map(
      ({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 200) ?? ''}`,
    );
  });
  expect(violations).toEqual([]);
}

const png = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);

test('on a phone: signs are weighed at once, questions asked, an entry outlives the connection, a photo is attached', async () => {
  const { page, faults } = await openPage(browser, { width: 360 });
  await page.goto(`${server.address}/desk?unit=P1`);
  await settled(page);
  await page.getByText('Nothing is entered yet').waitFor();
  await soundPage(page);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('.desk-answers label, .desk-number input, .desk button')]
      .filter((element) => element.getBoundingClientRect().height < 44)
      .map((element) => element.outerHTML.slice(0, 120)),
  );
  expect(small).toEqual([]);

  const likeliest = page.locator('.desk-causes li').first();
  await page.getByLabel(/^Fault codes/).fill('P0016, p0335');
  await page.getByRole('heading', { name: 'Crank sensor: rule this out first' }).waitFor();
  expect(await likeliest.textContent()).toContain('Wiring and sensors');
  expect(await page.getByRole('list', { name: 'Cautions' }).textContent()).toContain(
    'sensors and wiring come first',
  );
  await page.getByLabel(/^Fault codes/).fill('P0016');
  await page
    .getByRole('list', { name: 'Stop' })
    .getByText(/do not keep driving to confirm/)
    .waitFor();

  await page.getByLabel('Who asks').fill('Ines Farrow');
  await page.getByRole('button', { name: 'Ask unit P1 in' }).click();
  await page.getByText('Unit P1 is asked in').waitFor();
  await page.getByLabel(/^Fault codes/).fill('');
  await page.getByLabel('Not looked').waitFor();
  await page
    .getByRole('group', { name: 'Oil level, on level ground' })
    .getByLabel('Between the marks')
    .check();
  await page.getByLabel(/^Blocked share/).fill('40');
  await page.getByRole('button', { name: 'It is 40 per cent' }).click();
  await page
    .locator('.desk-causes li', { hasText: 'Oil control solenoid' })
    .getByText(/screen blocked/)
    .waitFor();
  expect(await page.locator('.desk-next').textContent()).not.toContain('oil level');

  await page.getByRole('button', { name: 'Keep with the unit' }).click();
  await page.getByText(/Who found it/).waitFor();
  await page.getByLabel('Your name').fill('Maud Serra');
  await page.route('**/findings', (route) => route.abort());
  await page.getByRole('button', { name: 'Keep with the unit' }).click();
  await page.getByText(/kept on this device and sent again by itself/).waitFor();
  await page.reload();
  await settled(page);
  expect(await page.getByLabel(/^Blocked share/).inputValue()).toBe('40 %');
  await page.unroute('**/findings');
  await page.reload();
  await page.getByText('Findings for unit P1: sent.').waitFor();
  expect(await page.getByText('Not sent yet').count()).toBe(0);
  expect(await page.getByLabel(/^Blocked share/).inputValue()).toBe('');

  await page.getByRole('group', { name: 'Crankcase ventilation' }).getByLabel('Faulty').check();
  await page.getByRole('button', { name: 'Keep with the unit' }).click();
  await page.getByText(/Kept with unit P1 as batch/).waitFor();
  await page.locator('.desk-after input[type=file]').setInputFiles({
    name: 'seen.png',
    mimeType: 'image/png',
    buffer: png,
  });
  await page.getByText('1 photo attached').waitFor();
  await soundPage(page);
  const { photos } = (await (await fetch(`${server.address}/api/units/P1/photos`)).json()) as {
    photos: { type: string; addedBy: string }[];
  };
  expect(photos).toEqual([expect.objectContaining({ type: 'image/jpeg', addedBy: 'Maud Serra' })]);
  // the aborted send is the only thing that may be noted
  expect(faults.filter((words) => !words.includes('ERR_FAILED'))).toEqual([]);
  await page.context().close();
});

test('wear map and unit page: units without a chain are counted, looks and reasons are read, nothing is out of place', async () => {
  const { page, faults } = await openPage(browser, { width: 360 });
  await page.goto(`${server.address}/wear?unit=P1`);
  await settled(page);
  await page.waitForSelector('canvas[data-drawn="yes"]');
  expect(await page.locator('.sentence').textContent()).toBe(
    '2 units with sludge and chain known; 1 not shown.',
  );
  expect(await page.getByRole('list', { name: 'Not shown' }).textContent()).toContain('timing belt');
  await page.getByText('The same as a table').click();
  await soundPage(page);
  await page.getByRole('region', { name: 'Wear map as a table' }).getByRole('link', { name: 'P1' }).click();
  await page.waitForURL('**/units/P1');
  await settled(page);
  await page.getByRole('heading', { name: 'Look before replacing' }).waitFor();
  await page.getByRole('region', { name: 'Looks' }).getByText('pull the oil control screen').waitFor();
  await page.getByRole('heading', { name: 'Why the wear is so' }).waitFor();
  await page.getByAltText(/^Photo of ventilation fault/).waitFor();
  await soundPage(page);
  expect(faults).toEqual([]);
  await page.context().close();
});
