import { expect, test } from 'vitest';
import { get, startOwnShop } from '../server/shopFleet.ts';
import { openPage, settled, siteOf } from './browser.ts';

const site = siteOf(startOwnShop);

interface Batches {
  readonly batches: readonly { readonly id: string }[];
}

test('without a connection: look-up, desk and card open, an entry is kept, and arrives once when the server is back', async () => {
  const { page } = await openPage(site.browser, { width: 360, offline: true });
  const batches = async (): Promise<number> =>
    (await get<Batches>(site.server, '/api/intake/batches')).batches.length;
  await page.goto(`${site.server.address}/find`);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  for (const path of ['/desk?unit=A1', '/card/new?unit=A1&jobs=oil_change', '/find?unit=a1']) {
    await page.goto(site.server.address + path);
    await settled(page);
  }
  const before = await batches();
  // an answer is kept after the page has it
  const reads = [
    '/api/state',
    '/api/find',
    '/api/desk',
    '/api/units/A1/desk',
    '/api/cards?unit=A1&jobs=oil_change',
  ];
  const keptAll = (paths: string[]): Promise<boolean> =>
    Promise.all(paths.map((path) => caches.match(path))).then((found) =>
      found.every((one) => one !== undefined),
    );
  await expect.poll(() => page.evaluate(keptAll, reads)).toBe(true);

  await site.server.pause();
  await page.reload();
  await page.getByText(/The server does not answer\. What you see was read/).waitFor();
  await page.getByRole('link', { name: 'Job card' }).waitFor();
  await page.goto(`${site.server.address}/card/new?unit=A1&jobs=oil_change`);
  await page.getByRole('heading', { name: 'Job card: unit A1' }).waitFor();
  await page.goto(`${site.server.address}/find?unit=a1`);
  await page.locator('.find-units').getByRole('link', { name: 'Symptom desk' }).click();
  await page.getByRole('group', { name: 'Crankcase ventilation' }).getByLabel('Faulty').check();
  await page.getByLabel('Your name').fill('Maud Serra');
  await page.getByRole('button', { name: 'Keep with the unit' }).click();
  await page.getByText(/kept on this device and sent again by itself/).waitFor();
  await page.goto(`${site.server.address}/find`);
  await page.getByText(/1 entry waits on this device: Findings for unit A1/).waitFor();
  // a page that was never opened says so, and stays a page
  await page.goto(`${site.server.address}/method`);
  await page.getByRole('heading', { name: 'Method' }).waitFor();
  await page
    .getByText(/The server does not answer/)
    .first()
    .waitFor();

  await site.server.resume();
  // the page asks by itself every 15 s as well, and may have been faster
  const again = page.getByRole('button', { name: 'Try again' }).first();
  await again.click({ timeout: 5000 }).catch(() => undefined);
  await page.getByText('Findings for unit A1: sent.').waitFor();
  expect(await batches()).toBe(before + 1);
  await expect.poll(() => page.getByText(/The server does not answer/).count()).toBe(0);
  await page.reload();
  await settled(page);
  expect(await batches()).toBe(before + 1);
  await page.context().close();
});

test('a code in front of the camera finds its unit and the camera stops; a camera that may not be used is said', async () => {
  const { page, faults } = await openPage(site.browser, { width: 360 });
  // the packaged browser reads no codes: its camera and reader are stood in for, the page is the real one
  await page.addInitScript(() => {
    const place = window as unknown as { refused: boolean; seen: string; track?: MediaStreamTrack };
    place.refused = true;
    place.seen = 'Z9';
    const canvas = document.createElement('canvas');
    Object.defineProperty(navigator, 'mediaDevices', {
      value: {
        getUserMedia: async () => {
          if (place.refused) throw new DOMException('no', 'NotAllowedError');
          canvas.getContext('2d')?.fillRect(0, 0, 9, 9);
          const stream = canvas.captureStream(10);
          [place.track] = stream.getTracks();
          return stream;
        },
      },
    });
    Object.defineProperty(window, 'BarcodeDetector', {
      value: class {
        detect = async () => [{ rawValue: place.seen }];
      },
    });
    setInterval(() => canvas.getContext('2d')?.fillRect(0, 0, 9, 9), 50);
  });
  await page.goto(`${site.server.address}/find`);
  await settled(page);
  await page.getByRole('button', { name: 'Scan number or VIN' }).click();
  await page.getByText(/The camera may not be used here/).waitFor();
  await page.evaluate(() => ((window as unknown as { refused: boolean }).refused = false));
  await page.getByRole('button', { name: 'Scan number or VIN' }).click();
  await page.getByText('“Z9” is no unit’s number or VIN on record.').waitFor();
  await page.evaluate(() => ((window as unknown as { seen: string }).seen = 'a1'));
  await page.waitForURL('**/find?unit=A1');
  await page.locator('.find-unit', { hasText: 'A1' }).waitFor();
  await page.getByRole('button', { name: 'Scan number or VIN' }).waitFor();
  expect(await page.evaluate(() => (window as unknown as { track: MediaStreamTrack }).track.readyState)).toBe(
    'ended',
  );
  await page.locator('.find-unit').click();
  await page.waitForURL('**/units/A1');
  expect(faults).toEqual([]);
  await page.context().close();
});
