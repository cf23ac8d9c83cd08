import type { CDPSession, Page } from 'playwright-core';
import { fleetList, type FleetList } from '../../models/schema/fleetList.ts';
import { builtPages, launchBrowser } from '../browser/browser.ts';
import { startServer, type Running } from '../server/running.ts';
import { answerHere } from '../../server/services/fleetAnswers.ts';
import type { Figure } from './figure.ts';

const unitsWanted = 10_000;
const turns = 5;
const pageChanges = 100;

const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

/** The demo's list as the kept answer of a fleet of ten thousand: what the server sends and the page draws, without working it out. */
async function grow(server: Running): Promise<void> {
  const store = await server.context.current();
  const text = await answerHere(server.context, store, { name: 'list' });
  const list = fleetList.parse(JSON.parse(text));
  const units = Array.from({ length: unitsWanted }, (_, index) => {
    const unit = list.units[index % list.units.length];
    return { ...unit, unitNumber: `${unit.unitNumber}-${index}` };
  });
  const grown: FleetList = { ...list, units };
  store.sqlite
    .prepare('UPDATE kept_result SET body = ? WHERE key LIKE ?')
    .run(JSON.stringify(grown), '%|list');
}

/** Processor time of the page's thread, ms. */
async function processorMs(session: CDPSession): Promise<number> {
  const { metrics } = await session.send('Performance.getMetrics');
  return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? 0);
}

/** Types into the search of a list; for each letter the time to the next frame, and the processor time in it. */
async function typeInto(page: Page): Promise<{ wall: number[]; processor: number[] }> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const [wall, processor]: [number[], number[]] = [[], []];
  for (const text of ['2', '22', '220', '22', '2', '', '3', '33', '3', '']) {
    const before = await processorMs(session);
    wall.push(
      await page.evaluate(async (value) => {
        const field = document.querySelector<HTMLInputElement>('input[type=search]')!;
        const begun = performance.now();
        field.value = value;
        field.dispatchEvent(new Event('input', { bubbles: true }));
        await new Promise<void>((drawn) =>
          requestAnimationFrame(() => {
            const after = new MessageChannel();
            after.port1.onmessage = () => drawn();
            after.port2.postMessage(null);
          }),
        );
        return performance.now() - begun;
      }, text),
    );
    processor.push((await processorMs(session)) - before);
    await page.waitForTimeout(400);
  }
  return { wall, processor };
}

/** Script that a first visit loads before its chart, packed as a server in front would send it, kB. */
async function packedKb(bodies: readonly Buffer[]): Promise<number> {
  const { gzipSync } = await import('node:zlib');
  return bodies.reduce((sum, body) => sum + gzipSync(body).length, 0) / 1000;
}

/** A page from navigation to what `ready` waits for, in s; the sum of its layout shifts beside it. */
async function opened(
  page: Page,
  address: string,
  ready: string,
): Promise<{ seconds: number; shift: number }> {
  const begun = performance.now();
  await page.goto(address);
  await page.waitForSelector(ready);
  const seconds = (performance.now() - begun) / 1000;
  await page.waitForTimeout(300);
  return { seconds, shift: await page.evaluate(() => (window as unknown as { shifted: number }).shifted) };
}

const watchShifts = (): void => {
  const place = window as unknown as { shifted: number };
  place.shifted = 0;
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) place.shifted += (entry as unknown as { value: number }).value;
  }).observe({ type: 'layout-shift', buffered: true });
};

/** Pages of ten thousand units in headless Chromium, the server's share included; each figure is the middle of its turns. */
export async function run(): Promise<readonly Figure[]> {
  await builtPages();
  const server = await startServer();
  const browser = await launchBrowser();
  try {
    await grow(server);
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 } });
    await context.addInitScript(watchShifts);
    const page = await context.newPage();
    const scripts: Promise<Buffer>[] = [];
    page.on('response', (response) => {
      if (/assets\/.*\.js$/.test(response.url()) && !/register/.test(response.url()))
        scripts.push(response.body());
    });
    const drawn = 'canvas[data-drawn="yes"]';
    await opened(page, server.address, drawn);
    const firstKb = await packedKb(await Promise.all(scripts));
    const attention = [];
    for (let turn = 0; turn < turns; turn += 1) attention.push(await opened(page, server.address, drawn));
    const onAttention = await typeInto(page);
    await page.goto(`${server.address}/units`);
    await page.waitForSelector('tr.line');
    const onUnits = await typeInto(page);
    const firstUnit = await opened(page, `${server.address}/units/2202`, drawn);
    const units = [];
    for (let turn = 0; turn < turns; turn += 1)
      units.push(await opened(page, `${server.address}/units/2202`, drawn));

    const session = await context.newCDPSession(page);
    const heapMb = async (): Promise<number> => {
      await session.send('HeapProfiler.collectGarbage');
      const { usedSize } = await session.send('Runtime.getHeapUsage');
      return usedSize / 1e6;
    };
    const change = async (times: number): Promise<void> => {
      for (let turn = 0; turn < times; turn += 1)
        for (const [name, ready] of [
          ['Method', 'h1:text("Method")'],
          ['Find a unit', '.find-number'],
        ]) {
          await page.locator('.heading nav').getByRole('link', { name }).click();
          // not waitForSelector, whose handle would keep the page that was left
          await page.locator(ready).waitFor();
        }
    };
    await change(5);
    const before = await heapMb();
    await change(pageChanges / 2);
    const after = await heapMb();
    const figure = (name: string, value: number, unit: string, target: string): Figure => ({
      name,
      figure: value,
      unit,
      target,
    });
    return [
      figure(
        'attention of 10 000 units drawn',
        middle(attention.map(({ seconds }) => seconds)),
        's',
        'below 1 s',
      ),
      figure('letter typed to list drawn, Attention', middle(onAttention.wall), 'ms', 'below 50 ms'),
      figure('the same, processor time', middle(onAttention.processor), 'ms', 'below 50 ms'),
      figure('letter typed to list drawn, Units', middle(onUnits.wall), 'ms', 'below 50 ms'),
      figure('the same, processor time', middle(onUnits.processor), 'ms', 'below 50 ms'),
      figure('unit page of the demo, first after a start', firstUnit.seconds, 's', 'below 0.7 s'),
      figure('unit page of the demo', middle(units.map(({ seconds }) => seconds)), 's', 'below 0.7 s'),
      figure('script of the first visit, packed, without charts', firstKb, 'kB', 'below 170 kB'),
      figure('layout shift of Attention', middle(attention.map(({ shift }) => shift)), '', '0'),
      figure('layout shift of a unit page', middle(units.map(({ shift }) => shift)), '', '0'),
      figure(`memory gained over ${pageChanges} page changes`, after - before, 'MB', 'about 0'),
    ];
  } finally {
    await browser.close();
    await server.stop();
  }
}
