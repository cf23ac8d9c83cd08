import { parentPort } from 'node:worker_threads';
import { planPart, type SitePart } from '../../models/decisions/shop/siteParts.ts';
import { moneySolver } from '../services/moneySolver.ts';
import { zoneOffset } from '../services/planShopZone.ts';

/** Entry of a worker thread that plans one site after another, as they are handed to it. */
parentPort?.on('message', (part: SitePart) => {
  void moneySolver().then((solver) => parentPort?.postMessage(planPart(part, zoneOffset, solver)));
});
