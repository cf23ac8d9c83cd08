import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { fleetList } from '../../models/schema/fleetList.ts';
import { promiseKept } from '../../models/schema/promise.ts';
import answers from './references/answers.json';
import { openPage, settled, siteOf } from './browser.ts';

/** Share of pixels that may differ: what another machine's drawing of edges changes, not a moved line of text. */
const tolerance = 0.002;
/** Channel steps of 255 from which a pixel counts as another one. */
const visible = 48;

const folder = new URL('./references/', import.meta.url).pathname;
const views = [
  { name: 'attention', path: '/', scheme: 'light' },
  { name: 'attention-dark', path: '/', scheme: 'dark' },
  { name: 'units', path: '/units', scheme: 'light' },
  { name: 'find', path: '/find?unit=220', scheme: 'light' },
  { name: 'history', path: '/units/2202/history', scheme: 'light' },
  { name: 'units-phone', path: '/units', scheme: 'light', width: 360 },
] as const;

const site = siteOf();

/** Answers that models give stand still here: a page's look is judged, not its figures. */
async function freezeAnswers(page: Page): Promise<void> {
  const still: Readonly<Record<string, unknown>> = {
    '**/api/fleet-list*': fleetList.parse(answers.fleetList),
    '**/api/promise*': promiseKept.parse(answers.promise),
    '**/api/moves*': answers.moves,
  };
  for (const [address, answer] of Object.entries(still))
    await page.route(address, (route) => route.fulfill({ json: answer }));
}

/** Share of pixels in which two pictures differ; 1 when their sizes do. Compared by the browser that drew them. */
function differing(page: Page, one: Buffer, other: Buffer): Promise<number> {
  return page.evaluate(
    async ({ pictures, step }) => {
      const pixels = await Promise.all(
        pictures.map(async (picture) => {
          const image = new Image();
          image.src = `data:image/png;base64,${picture}`;
          await image.decode();
          const canvas = document.createElement('canvas');
          [canvas.width, canvas.height] = [image.width, image.height];
          const pen = canvas.getContext('2d')!;
          pen.drawImage(image, 0, 0);
          return pen.getImageData(0, 0, image.width, image.height);
        }),
      );
      const [a, b] = pixels;
      if (a.width !== b.width || a.height !== b.height) return 1;
      let count = 0;
      for (let at = 0; at < a.data.length; at += 4)
        if ([0, 1, 2].some((channel) => Math.abs(a.data[at + channel] - b.data[at + channel]) > step))
          count += 1;
      return (4 * count) / a.data.length;
    },
    { pictures: [one.toString('base64'), other.toString('base64')], step: visible },
  );
}

test('key pages look as their references; WRITE_LOOKS=1 writes them anew, to be looked at before they are kept', async () => {
  const off: string[] = [];
  let last: Buffer | null = null;
  for (const { name, path, scheme, ...view } of views) {
    const { page } = await openPage(site.browser, {
      width: 1400,
      height: 1000,
      scheme,
      scale: 0.5,
      ...view,
    });
    await freezeAnswers(page);
    await page.goto(site.server.address + path);
    await settled(page);
    if (path === '/')
      await page.waitForFunction(
        () =>
          document.querySelectorAll('canvas').length ===
          document.querySelectorAll('canvas[data-drawn="yes"]').length,
      );
    await page.evaluate(() => document.fonts.ready);
    const picture = await page.screenshot({ caret: 'hide', animations: 'disabled' });
    const file = `${folder}${name}.png`;
    if (process.env.WRITE_LOOKS === '1') {
      mkdirSync(folder, { recursive: true });
      writeFileSync(file, picture);
    }
    expect(existsSync(file), `${file} must be there`).toBe(true);
    const share = await differing(page, picture, readFileSync(file));
    // the comparison itself: another page or scheme is told apart
    if (last !== null) expect(await differing(page, picture, last)).toBeGreaterThan(10 * tolerance);
    last = picture;
    if (share > tolerance) off.push(`${name}: ${(100 * share).toFixed(2)} % of its pixels differ`);
    await page.context().close();
  }
  expect(off).toEqual([]);
});
