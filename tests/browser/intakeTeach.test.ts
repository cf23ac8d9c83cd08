import { rmSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { takeIn } from '../../server/services/takeIn.ts';
import { writeFiles } from '../server/ownFleet.ts';
import { startServer, type Running } from '../server/running.ts';
import { batchRow } from './batchRow.ts';
import { builtPages, launchBrowser, openPage, settled } from './browser.ts';

let server: Running;
let browser: Browser;
const files = writeFiles({
  'units.csv': 'unit_number,in_service_on\nT1,2020-01-01\nT2,2020-01-01\n',
  'service.csv':
    'unit_number,serviced_on,zorp,work\nT1,2023-01-01,10000,gnarple the flim\nT1,2023-06-01,20000,gnarple the flim\n' +
    'T2,2023-02-01,5000,oil_change\n',
});
beforeAll(async () => {
  await builtPages();
  server = await startServer();
  const units = files.filter(({ name }) => name === 'units.csv');
  await takeIn((await server.context.own()).file, units, { dryRun: false, by: 'test', today: '2024-06-01' });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await server.stop();
  rmSync(dirname(files[0].path), { recursive: true });
});

test('a column is corrected and kept by name, a work text taught, the batch undone', async () => {
  const { page, faults } = await openPage(browser, { width: 1400 });
  await page.goto(`${server.address}/intake`);
  await settled(page);
  const service = files.filter(({ name }) => name === 'service.csv').map(({ path }) => path);
  await page.locator('input[type=file]').setInputFiles(service);
  await page.getByLabel('zorp is').selectOption({ label: 'odometer' });
  // a distance whose unit of measure no name says is asked
  await page.getByRole('button', { name: 'km', exact: true }).click();
  await page.getByLabel('Keep these columns').fill('Yard sheet');
  await page.getByRole('button', { name: 'Take in 3 rows' }).click();
  await page.getByText('This is batch 2').waitFor();
  const maps = page.getByRole('region', { name: 'Column maps' });
  await maps.getByText('zorp is odometer in km').waitFor();

  const texts = page.getByRole('region', { name: 'Work texts that are not understood' });
  await texts.getByLabel('It means').first().selectOption('oil_change');
  await texts.getByRole('button', { name: 'Teach it' }).first().click();
  await page.getByText('“gnarple the flim” now means').waitFor();
  const { charges } = (await (await fetch(`${server.address}/api/units/T1`)).json()) as {
    charges: unknown[];
  };
  expect(charges.length).toBeGreaterThanOrEqual(2);

  const row = batchRow(page, '2');
  await row.getByRole('button', { name: 'Take back' }).click();
  await row.getByRole('button', { name: 'Take batch 2 back' }).click();
  await page.getByText('Batch 2 is taken back; 3 records removed.').waitFor();

  // the same layout again needs no word
  await page.locator('input[type=file]').setInputFiles(service);
  await page.getByText('Columns by the map Yard sheet.').waitFor();
  expect(await page.getByLabel('zorp is').inputValue()).toBe('odometerKm');
  await page.getByRole('button', { name: 'Take in 3 rows' }).waitFor();
  await page.getByRole('button', { name: 'Leave it' }).click();
  await maps.getByLabel('Name').fill('North sheet');
  await maps.getByRole('button', { name: 'Rename' }).click();
  await maps.getByText('North sheet').waitFor();
  await maps.getByRole('button', { name: 'Forget the map North sheet' }).click();
  await maps.waitFor({ state: 'detached' });
  expect(faults).toEqual([]);
  await page.context().close();
});

test('what is no file of records is left out with a click, and the order of days told once for all that ask', async () => {
  const mixed = writeFiles({
    'seen.csv': 'unit_number,seen_on,code\nT1,03/04/2024,P0016\n',
    'found.csv': 'unit_number,found_on,finding,value\nT2,05/04/2024,start_rattle_s,3\n',
    'lunch.csv': 'Day,Soup\nMonday,Pea\n',
    'picture.csv': '\u0000\u0001\u0002\u0003\u0000\u0000\u0004\u0000',
  });
  const { page, faults } = await openPage(browser, { width: 1400 });
  await page.goto(`${server.address}/intake`);
  await settled(page);
  await page.locator('input[type=file]').setInputFiles(mixed.map(({ path }) => path));
  await page.getByRole('button', { name: 'Go on without picture.csv' }).click();
  const lunch = page.getByRole('group', { name: 'lunch.csv' });
  await lunch.getByRole('button', { name: 'meter readings' }).waitFor();
  await lunch.getByRole('button', { name: 'Leave this file out' }).click();
  await lunch.waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'The month first' }).first().click();
  await page.getByRole('button', { name: 'Take in 2 rows' }).click();
  await page.getByText('2 rows read: 2 accepted').waitFor();
  const { records } = (await (await fetch(`${server.address}/api/state`)).json()) as { records: number };
  expect(records).toBeGreaterThan(2);
  // a refusal of the picture is what the browser itself writes
  expect(faults.filter((words) => !words.includes('422'))).toEqual([]);
  await page.context().close();
  rmSync(dirname(mixed[0].path), { recursive: true });
});
