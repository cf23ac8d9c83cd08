import { builtPages, launchBrowser } from '../browser/browser.ts';
import { startServer } from '../server/running.ts';
import type { Figure } from './figure.ts';

/** Attention of the demo in headless Chromium: from navigation to the drawn chart, and how much script that takes. */
export async function run(): Promise<readonly Figure[]> {
  await builtPages();
  const server = await startServer();
  const browser = await launchBrowser();
  try {
    const drawn: number[] = [];
    let scriptBytes = 0;
    for (let turn = 0; turn < 6; turn += 1) {
      const page = await browser.newPage();
      scriptBytes = 0;
      page.on('response', (response) => {
        if (response.url().endsWith('.js')) void response.body().then((body) => (scriptBytes += body.length));
      });
      const begun = performance.now();
      await page.goto(server.address);
      await page.waitForSelector('canvas[data-drawn="yes"]');
      // the first turn works the fleet through; later ones show what a visit costs
      if (turn > 0) drawn.push(performance.now() - begun);
      await page.close();
    }
    drawn.sort((a, b) => a - b);
    return [
      { name: 'attention of the demo drawn', figure: drawn[2] / 1000, unit: 's', target: 'below 1 s' },
      {
        name: 'script loaded with the first chart, not packed',
        figure: scriptBytes / 1000,
        unit: 'kB',
        target: 'small',
      },
    ];
  } finally {
    await browser.close();
    await server.stop();
  }
}
