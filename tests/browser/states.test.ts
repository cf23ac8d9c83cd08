import type { Page, Route } from 'playwright-core';
import { expect, test } from 'vitest';
import { get, startOwnShop } from '../server/shopFleet.ts';
import { expectSound, openPage, settled, siteOf } from './browser.ts';

const site = siteOf(startOwnShop);

interface Batches {
  readonly batches: readonly { readonly id: string }[];
}
const batches = async (): Promise<number> =>
  (await get<Batches>(site.server, '/api/intake/batches')).batches.length;

async function enter(page: Page): Promise<void> {
  await page.goto(`${site.server.address}/desk?unit=A1`);
  await settled(page);
  await page.getByRole('group', { name: 'Crankcase ventilation' }).getByLabel('Faulty').check();
  await page.getByLabel('Your name').fill('Maud Serra');
}

const answers: readonly [string, (route: Route) => Promise<void>, RegExp][] = [
  [
    'a session that ended',
    (route) => route.fulfill({ status: 401, body: '<html>Sign in</html>' }),
    /no longer knows who you are\. Sign in again.+kept on this device/,
  ],
  [
    'a gateway without its server',
    (route) => route.fulfill({ status: 502, body: 'Bad Gateway' }),
    /not to be reached just now\. Wait a minute.+kept on this device/,
  ],
  [
    'a fault of the program',
    (route) =>
      route.fulfill({
        status: 500,
        json: { code: 'fault', detail: 'Something in the program failed. Its number in the log is E1.' },
      }),
    /number in the log is E1\. The entry is kept on this device/,
  ],
];

test('an entry outlives a session that ended, a gateway, a fault; each is said with what to do, and it arrives once', async () => {
  const { page } = await openPage(site.browser, { width: 360 });
  const before = await batches();
  await enter(page);
  let send: (route: Route) => Promise<void> = (route) => route.continue();
  await page.route('**/findings', (route) => send(route));
  for (const [name, answer, words] of answers) {
    send = answer;
    await page.getByRole('button', { name: 'Keep with the unit' }).click();
    await page.getByRole('alert').filter({ hasText: words }).waitFor();
    expect(await batches(), name).toBe(before);
    expect(await page.getByLabel('Your name').inputValue()).toBe('Maud Serra');
    // pressed again, it is still one entry
    expect(await page.getByText('Not sent yet').count()).toBe(1);
  }
  await expectSound(page);
  send = (route) => route.continue();
  await page.reload();
  await page.getByText('Findings for unit A1: sent.').waitFor();
  expect(await batches()).toBe(before + 1);
  await page.context().close();
});

test('a page whose read fails says why and reads again; a slow one explains the wait; an empty one says what comes first', async () => {
  const { page } = await openPage(site.browser, { width: 1400 });
  await page.route('**/api/fleet-list*', (route) =>
    route.fulfill({ status: 500, json: { code: 'fault', detail: 'Something in the program failed.' } }),
  );
  await page.goto(`${site.server.address}/units`);
  await page.getByText('Something in the program failed.').waitFor();
  await page.unroute('**/api/fleet-list*');
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.locator('table.unit-list').waitFor();

  await page.clock.install();
  let release = (): void => undefined;
  const released = new Promise<void>((resolve) => (release = resolve));
  await page.route('**/api/find', async (route) => {
    await released;
    await route.continue();
  });
  await page.goto(`${site.server.address}/find`);
  await page.getByText('Reading the units …').waitFor();
  await page.clock.fastForward(6000);
  await page.getByText(/The server is still at work/).waitFor();
  release();
  await page.getByText(/units? in service\./).waitFor();

  // while records are worked through, the answer before them is shown, said to be so, and renewed by itself
  let asked = 0;
  let isReady = false;
  await page.route('**/api/fleet-list*', async (route) => {
    const answer = await route.fetch();
    asked += 1;
    const headers = answer.headers();
    if (!isReady) headers['former-answer-of'] = '2026-03-31T14:05:00.000Z';
    await route.fulfill({ response: answer, headers });
  });
  await page.goto(`${site.server.address}/units`);
  const wait = page.getByText(/^At work\. As of 31 Mar 2026, 14:05; what came in since then/);
  await wait.waitFor();
  await page.locator('table.unit-list').waitFor();
  while (asked < 3) await page.clock.fastForward(2500);
  isReady = true;
  const before = asked;
  while (asked === before) await page.clock.fastForward(2500);
  await wait.waitFor({ state: 'detached' });

  await page.route('**/api/visits', (route) => route.fulfill({ status: 403, body: '<html>Sign in</html>' }));
  await page.goto(`${site.server.address}/visits`);
  await page.getByText(/no longer knows who you are\. Sign in again in another window/).waitFor();
  await page.unroute('**/api/visits');
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.getByText(/There is no visit yet/).waitFor();

  await page.goto(`${site.server.address}/units/NOBODY/history`);
  await page.getByText(/There is no unit NOBODY on record/).waitFor();
  await page.context().close();
});
