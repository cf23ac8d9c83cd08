import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import packaged from '@sparticuz/chromium';
import { chromium, type Browser, type Page, type Request } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import { ensureBuilt } from '../../server/launch.mjs';
import { startServer, type Running } from '../server/running.ts';

/** Chromium from its npm package; a system one where that can't start. */
export async function launchBrowser(): Promise<Browser> {
  try {
    return await chromium.launch({
      executablePath: await packaged.executablePath(),
      // the package's own list is for single-process hosts; a closed page would end the whole browser
      args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage'],
      headless: true,
    });
  } catch (error) {
    const system = '/usr/bin/chromium';
    if (!existsSync(system)) throw error;
    return chromium.launch({ executablePath: system, args: ['--no-sandbox'], headless: true });
  }
}

/** Where the built pages are; built when the test run has not done so already. */
export async function builtPages(): Promise<void> {
  process.env.SUMPWISE_BUILT ??= await ensureBuilt();
}

export interface Watched {
  readonly page: Page;
  /** console errors, warnings of the policy, and errors thrown in the page */
  readonly faults: string[];
}

/** How long anything on a page is waited for, ms: a busy machine works the demo through in more than a minute. */
const patienceMs = 150_000;

/** What the console says where a test keeps the service worker out. */
const workerKeptOut = 'Service Worker registration blocked by Playwright';

/** A page of one size and colour scheme whose faults are collected. */
export async function openPage(
  browser: Browser,
  options: { width: number; height?: number; scheme?: 'light' | 'dark'; offline?: true; scale?: number },
): Promise<Watched> {
  const context = await browser.newContext({
    viewport: { width: options.width, height: options.height ?? 900 },
    colorScheme: options.scheme ?? 'light',
    deviceScaleFactor: options.scale ?? 1,
    locale: 'en-GB',
    timezoneId: 'UTC',
    bypassCSP: false,
    // the worker's requests pass by what a test blocks; tests of the worker let it in
    serviceWorkers: options.offline === true ? 'allow' : 'block',
  });
  const page = await context.newPage();
  countRequests(page);
  page.setDefaultTimeout(patienceMs);
  const faults: string[] = [];
  page.on('console', (message) => {
    if (message.text() === workerKeptOut) return;
    if (message.type() === 'error' || message.type() === 'warning') faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(error.message));
  return { page, faults };
}

/** Requests of a page that are not answered yet. */
const unanswered = new WeakMap<Page, Set<Request>>();

function countRequests(page: Page): void {
  const open = new Set<Request>();
  unanswered.set(page, open);
  page.on('request', (request) => open.add(request));
  page.on('requestfinished', (request) => open.delete(request));
  page.on('requestfailed', (request) => open.delete(request));
}

/** How long nothing may be asked before a page counts as settled: short, since its idle moments are waited for beside it. */
const quietMs = 60;

/** Waits until nothing is read any more: no loading notice, no open request, and nothing left to do that could ask. */
export async function settled(page: Page): Promise<void> {
  await page.waitForLoadState('load');
  const open = unanswered.get(page);
  if (open === undefined) throw new Error('only pages of openPage can be waited for');
  const until = Date.now() + patienceMs;
  for (let calm = 0; calm < 2; calm = open.size === 0 ? calm + 1 : 0) {
    if (Date.now() > until) throw new Error(`${page.url()} does not settle`);
    await page.waitForFunction(
      () => document.querySelector('main') !== null && document.querySelector('.loading') === null,
    );
    await page.evaluate(
      (ms) => new Promise((resolve) => setTimeout(() => requestIdleCallback(resolve, { timeout: 2000 }), ms)),
      quietMs,
    );
  }
}

/** The running application and the browser of a test file. */
export interface Site {
  readonly server: Running;
  readonly browser: Browser;
}

/** Starts pages, server and browser before the tests of a file, and ends them after. */
export function siteOf(start: () => Promise<Running> = startServer): Site {
  let server: Running;
  let browser: Browser;
  beforeAll(async () => {
    await builtPages();
    [server, browser] = await Promise.all([start(), launchBrowser()]);
  });
  afterAll(async () => {
    await browser.close();
    await server.stop();
  });
  return {
    get server() {
      return server;
    },
    get browser() {
      return browser;
    },
  };
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface AxeViolation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string }[];
}
interface Axe {
  run(options: object): Promise<{ readonly violations: readonly AxeViolation[] }>;
}

/** Nothing is wider than the screen, and the accessibility rules (all, or only those named) find nothing. */
export async function expectSound(page: Page, rules?: readonly string[]): Promise<void> {
  const overflow = (): number => document.documentElement.scrollWidth - document.documentElement.clientWidth;
  // charts follow a change of width a frame later
  await page
    .waitForFunction(
      () => document.documentElement.scrollWidth <= document.documentElement.clientWidth,
      null,
      {
        timeout: 20_000,
      },
    )
    .catch(() => undefined);
  const tooWide = await page.evaluate(overflow);
  expect(tooWide, `${page.url()} is ${tooWide} px wider than the screen`).toBeLessThanOrEqual(0);
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe);
  const violations = await page.evaluate(
    async (only) => {
      const tool = (window as unknown as { axe: Axe }).axe;
      const found = await tool.run(only === null ? {} : { runOnly: only });
      return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 200) ?? ''}`);
    },
    rules === undefined ? null : [...rules],
  );
  expect(violations, page.url()).toEqual([]);
}

/**
 * On a phone no table scrolls sideways, no line of a list is cut, and what is touched is at least 44 px high (WCAG 2.2,
 * 2.5.5), links and words within a line of text excepted as there.
 */
export async function expectPhone(page: Page): Promise<void> {
  const found = await page.evaluate(() => {
    const seen = (element: Element): boolean => {
      const { width, height } = element.getBoundingClientRect();
      return width > 0 && height > 0 && element.closest('.unseen, .skip, .file-choice') === null;
    };
    const say = (element: Element, words: string): string =>
      `${words}: ${element.tagName.toLowerCase()}.${element.className} ${element.textContent.trim().slice(0, 40)}`;
    const all = (selector: string): Element[] => [...document.querySelectorAll(selector)].filter(seen);
    const inText = (element: Element): boolean =>
      element.matches('.term > button, span > button.link, .further > summary') ||
      (element.matches('a') && getComputedStyle(element).display === 'inline');
    const touched = (element: Element): Element =>
      (element.matches('[type=checkbox], [type=radio]') && element.closest('label, td')) || element;
    return [
      ...all('.table-frame')
        .filter((frame) => frame.scrollWidth > frame.clientWidth + 1)
        .map((frame) => say(frame, 'scrolls sideways')),
      ...all('tr.line, tr.line .clip')
        .filter(
          (line) => line.scrollHeight > line.clientHeight + 2 || line.scrollWidth > line.clientWidth + 1,
        )
        .map((line) => say(line, 'is cut')),
      ...all('a[href], button, select, summary, input:not([type=file])')
        .filter((element) => !inText(element) && touched(element).getBoundingClientRect().height < 43.5)
        .map((element) => say(element, 'is too low to touch')),
    ];
  });
  expect(found, page.url()).toEqual([]);
}
