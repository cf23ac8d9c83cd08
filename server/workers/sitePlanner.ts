import { parentPort } from 'node:worker_threads';
import { planPart, type SitePart } from '../../models/decisions/shop/siteParts.ts';
import { zoneOffset } from '../services/planShopZone.ts';

/** Entry of a worker thread that plans one site after another, as they are handed to it. */
parentPort?.on('message', (part: SitePart) => parentPort?.postMessage(planPart(part, zoneOffset)));
