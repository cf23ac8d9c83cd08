import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { SiteDocument } from '../../models/decisions/shop/planSite.ts';
import { planPart, type SitePart, type SiteWork } from '../../models/decisions/shop/siteParts.ts';
import type { ShopPlan } from '../../models/schema/shopPlan.ts';
import type { Paths } from '../config.ts';
import { workerFile } from '../files/workerFile.ts';
import { moneySolver } from './moneySolver.ts';
import { zoneOffset } from './planShopZone.ts';

/** Each thread holds a site's packings in memory. */
const mostThreads = 4;

/** Fewer jobs are planned before a thread has begun. */
const leastJobs = 300;

/**
 * Does a plan's work, its sites side by side on as many threads as there are cores; the plan is the same on one.
 * @param planned told how many of the sites are done
 */
export async function planOnThreads(
  paths: Paths,
  { parts, join }: SiteWork,
  planned: (done: number, total: number) => void = () => undefined,
): Promise<ShopPlan> {
  const file = workerFile(paths, 'sitePlanner');
  const threads = Math.min(availableParallelism(), mostThreads, parts.length);
  const jobs = parts.reduce((sum, part) => sum + part.jobs.length, 0);
  planned(0, parts.length);
  if (file !== null && threads > 1 && jobs >= leastJobs)
    return join(await workOn(file, threads, parts, planned));
  const solver = await moneySolver();
  return join(
    parts.map((part, i) => {
      const document = planPart(part, zoneOffset, solver);
      planned(i + 1, parts.length);
      return document;
    }),
  );
}

/** Hands the largest sites out first, the next to whichever thread is free. */
async function workOn(
  file: string,
  threads: number,
  parts: readonly SitePart[],
  planned: (done: number, total: number) => void,
): Promise<SiteDocument[]> {
  const waiting = parts.map((_, i) => i).sort((a, b) => parts[a].jobs.length - parts[b].jobs.length || b - a);
  const documents: SiteDocument[] = [];
  let done = 0;
  const workers = Array.from({ length: threads }, () => new Worker(file));
  try {
    await Promise.all(
      workers.map(async (worker) => {
        for (let i = waiting.pop(); i !== undefined; i = waiting.pop()) {
          documents[i] = await onThread(worker, parts[i]);
          planned((done += 1), parts.length);
        }
      }),
    );
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
  return documents;
}

/** The document of one site, as a thread works it out. */
function onThread(worker: Worker, part: SitePart): Promise<SiteDocument> {
  return new Promise((resolve, reject) => {
    const ended = (): void => reject(new Error(`the plan of ${part.site.site} was ended: ask again`));
    worker.once('error', reject).once('exit', ended);
    worker.once('message', (document: SiteDocument) => {
      worker.off('error', reject).off('exit', ended);
      resolve(document);
    });
    worker.postMessage(part);
  });
}
