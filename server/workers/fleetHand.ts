import { parentPort } from 'node:worker_threads';
import { coefficientFile, coefficientValues } from '../../models/schema/coefficient.ts';
import { catalogFiles } from '../catalog.ts';
import { fleetModels } from '../fleetModels.ts';
import { FleetHand, type HandAsk, type HandTold } from '../services/fleetHand.ts';
import { openStore } from '../store/openStore.ts';

const coefficients = coefficientValues(catalogFiles.map((file) => coefficientFile.parse(file)));
const tell = (told: HandTold): void => parentPort?.postMessage(told);
const hand = new FleetHand(fleetModels(coefficients), tell);

async function work(ask: HandAsk): Promise<void> {
  try {
    if ('rates' in ask) {
      hand.finish(ask.rates);
      return;
    }
    const store = await openStore(ask.storeFile);
    try {
      hand.begin(store, ask.revision, ask.question);
    } finally {
      await store.close();
    }
  } catch (error) {
    tell({ failed: error instanceof Error ? error.message : String(error) });
  }
}

/** Entry of a worker thread that takes a share of a pass over a fleet. */
parentPort?.on('message', (ask: HandAsk) => void work(ask));
