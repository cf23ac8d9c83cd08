import { assembleFleet } from '../../models/assessment/assembleFleet.ts';
import { freezeOrigin, hindcastFleet, type FrozenOrigin } from '../../models/assessment/hindcastFleet.ts';
import { defaultOrigins, originRefusal } from '../../models/assessment/hindcastOrigins.ts';
import { modelVersion } from '../../models/assessment/modelVersion.ts';
import type { HindcastResult } from '../../models/schema/hindcastEndpoints.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import { loadFlatRecords } from '../store/flatRecords.ts';
import { findKeptResult, keepResult } from '../store/keptResults.ts';
import type { Store } from '../store/openStore.ts';
import { recordSpanOf } from '../store/recordSpan.ts';
import { loadSettings, revisionOf } from '../store/settings.ts';
import { loadTaught } from '../store/taughtTexts.ts';
import { workReader } from '../workWords.ts';
import { workFleet } from './assessStore.ts';

/** A hindcast as it is asked for; origins left out are the default ones. */
export interface HindcastRequest {
  readonly origins?: readonly string[];
  readonly horizonDays?: number;
}

/** A hindcast that can be worked out, with the key of its answer, or why it can't. */
export type HindcastQuestion =
  | {
      readonly key: string;
      readonly origins: readonly string[];
      readonly horizonDays: number;
      readonly asOf: string;
      readonly lastRecordOn: string;
    }
  | { readonly refused: string; readonly horizonDays: number };

/** Checks what is asked against the records that are there. */
export async function hindcastQuestion(
  context: Context,
  store: Store,
  request: HindcastRequest,
): Promise<HindcastQuestion> {
  const asOf = await context.asOf(store);
  const horizonDays = request.horizonDays ?? (await loadSettings(store)).horizonDays;
  const span = recordSpanOf(store, asOf);
  const origins =
    request.origins === undefined
      ? span === null
        ? []
        : defaultOrigins(span, horizonDays)
      : [...new Set(request.origins)].sort();
  const refused = originRefusal(origins, span, asOf);
  if (refused !== null || span === null) return { refused: refused ?? '', horizonDays };
  const key = [
    'hindcast',
    store.file,
    await revisionOf(store),
    asOf,
    horizonDays,
    origins.join(','),
    context.paths.web,
  ].join('|');
  return { key, origins, horizonDays, asOf, lastRecordOn: span.lastOn };
}

/** The answer to a question that was worked out before, or null. */
export function keptHindcast(store: Store, key: string): HindcastResult | null {
  const kept = findKeptResult(store, key);
  return kept === null ? null : (JSON.parse(kept) as HindcastResult);
}

/**
 * Freezes the records at each origin, assesses as on that day, and scores against all that is known today. The answer is kept until records, rules or
 * program change.
 * @param progress told after each origin how many are done
 */
export async function hindcastStore(
  context: Context,
  store: Store,
  question: Extract<HindcastQuestion, { key: string }>,
  progress: (done: number, total: number) => void,
): Promise<HindcastResult> {
  const known = keptHindcast(store, question.key);
  if (known !== null) return known;
  const { origins, horizonDays, asOf, lastRecordOn } = question;
  const models = fleetModels(context.coefficients);
  const settings = await loadSettings(store);
  const later = assembleFleet(loadFlatRecords(store, asOf), asOf, settings, workReader(loadTaught(store)));
  const frozen: FrozenOrigin[] = [];
  for (const origin of origins) {
    progress(frozen.length, origins.length);
    const { view } = await workFleet(context, store, origin, horizonDays);
    frozen.push(freezeOrigin(view, later, lastRecordOn, models));
  }
  progress(origins.length, origins.length);
  const result = hindcastFleet(frozen, { asOf, horizonDays, modelVersion }, lastRecordOn);
  keepResult(store, question.key, JSON.stringify(result), context.now());
  return result;
}
