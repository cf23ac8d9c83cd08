import type { UnitTimeline } from '../oil/charge.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { UnitHistory } from '../schema/history.ts';
import { applicabilityOf } from './applicability.ts';
import type { Applicability } from './applicability.ts';
import { codeEvidence, seenCodes } from './codeEvidence.ts';
import type { Evidence } from './evidence.ts';
import { requireEvidence } from './evidenceIds.ts';
import type { EvidenceSetting } from './evidenceSetting.ts';
import type { FaultCodes } from './faultCode.ts';
import { findingEvidence } from './findingEvidence.ts';
import { lifeEvidence } from './lifeEvidence.ts';
import { chainLimitOf } from './phaseGeometry.ts';
import type { ChainLimit } from './phaseGeometry.ts';
import { recordsFromDay } from './recordsFrom.ts';
import { renewalsOf } from './renewals.ts';
import { responseOf } from './response.ts';
import type { Response } from './response.ts';
import { sampleEvidence } from './sampleEvidence.ts';
import { segmentsOf } from './segments.ts';
import type { FillOf, Segment } from './segments.ts';
import type { Renewal } from './states.ts';
import { toldLifeOf } from './toldLife.ts';
import { unrecordedLifeOf } from './unrecordedLife.ts';

/** What the wear models take beside the unit itself. */
export interface WearContext {
  /** the oil of a charge and the engine as the oil sees it */
  readonly fillOf: FillOf;
  readonly coefficients: Coefficients;
  readonly faultCodes: FaultCodes;
  /** chance that a failure would be on record, so that the lack of one says something; left out: 0 */
  readonly failuresRecorded?: number;
  /** the family's level of iron in oil against the catalog's, as logarithm; left out: not known, iron is not used */
  readonly ironOffset?: number | null;
}

/** What a unit's analysis rests on whatever is believed of its rates: worked out once, used for every pass. */
export interface PreparedUnit {
  /** the timeline as it came, and the part of it that records tell */
  readonly whole: UnitTimeline;
  readonly timeline: UnitTimeline;
  readonly history: UnitHistory;
  readonly context: WearContext;
  readonly applies: Applicability;
  readonly chainLimit: ChainLimit | null;
  readonly renewals: readonly Renewal[];
  readonly segments: readonly Segment[];
  /** what the ends and lives of parts tell, whether it counts or not */
  readonly lives: readonly Evidence[];
  /** findings, codes and lives; what samples tell depends on the response */
  readonly direct: readonly Evidence[];
  readonly setting: EvidenceSetting;
  /** the response around log-rates, with what the samples tell there; kept for the catalog's rates */
  readonly responseAt: (base: Float64Array) => ResponseWithSamples;
}

/** How a unit answers to its unknowns around some log-rates, with what its samples tell there. */
export interface ResponseWithSamples {
  readonly response: Response;
  readonly samples: readonly Evidence[];
}

/**
 * Lays out a unit's segments, renewals and evidence.
 * @returns null when no wear state applies or there are no records
 */
export function prepareUnit(
  whole: UnitTimeline,
  history: UnitHistory,
  context: WearContext,
): PreparedUnit | null {
  const { coefficients, faultCodes, fillOf } = context;
  requireEvidence(coefficients);
  const applies = applicabilityOf(whole, history);
  if (!applies.sludge) return null;
  const asOfDay = whole.asOfDay;
  const renewals = renewalsOf(history, asOfDay, faultCodes, coefficients);
  const codes = seenCodes(history, faultCodes, asOfDay);
  const sampleDays = history.samples
    .map((sample) => dayFromIso(sample.sampledOn))
    .filter((day) => day <= asOfDay);
  const recordsFrom = recordsFromDay(history, whole);
  const used = unrecordedLifeOf(whole, newAtStart(history), coefficients);
  const told = used === null ? toldLifeOf(whole, recordsFrom) : null;
  const timeline = told?.timeline ?? whole;
  const marks = [
    recordsFrom,
    ...sampleDays,
    ...history.findings.map((finding) => dayFromIso(finding.foundOn)),
    ...codes.map((code) => code.day),
  ];
  const segments = segmentsOf(timeline, fillOf, marks, renewals, told?.unrecorded ?? used);
  const segmentAt = segmentFinder(segments, asOfDay);
  const sampled = new Set(sampleDays.map(segmentAt).filter((segment) => segment >= 0));
  const chainLimit = applies.chain ? chainLimitOf(history.engine, coefficients) : null;
  const setting: EvidenceSetting = {
    engine: history.engine,
    chainLimit,
    hasPhaser: applies.phaser,
    coefficients,
    segmentAt,
  };
  const lives = lifeEvidence(renewals, asOfDay, context.failuresRecorded ?? 0, codes, setting);
  const direct: readonly Evidence[] = [
    ...findingEvidence(history, codes, setting),
    ...codeEvidence(codes, renewals, asOfDay, setting),
    ...lives,
  ];
  const workOut = (base: Float64Array): ResponseWithSamples => {
    const response = responseOf(segments, timeline.charges, base, coefficients, sampled, recordsFrom);
    return { response, samples: sampleEvidence(history, timeline, response, segmentAt, coefficients) };
  };
  let atCatalog: ResponseWithSamples | null = null;
  const responseAt = (base: Float64Array): ResponseWithSamples =>
    base.every((rate) => rate === 0) ? (atCatalog ??= workOut(base)) : workOut(base);
  return {
    whole,
    timeline,
    history,
    context,
    applies,
    chainLimit,
    renewals,
    segments,
    lives,
    direct,
    setting,
    responseAt,
  };
}

/** Whether the unit's records begin when it was new. */
function newAtStart({ unit }: UnitHistory): boolean {
  const odometerKm = unit.acquiredOdometerKm ?? unit.inServiceOdometerKm;
  return odometerKm === null ? unit.acquiredOn === null : odometerKm < 1500;
}

/** The end of unrecorded life is known about this well; evidence from before it has no place, d. */
const beforeDays = 30;

function segmentFinder(segments: readonly Segment[], asOfDay: number): (day: number) => number {
  const first = segments[0];
  const least = first.chargeIndex < 0 ? first.toDay - beforeDays : first.fromDay;
  return (day) => (day > asOfDay || day < least ? -1 : segments.findIndex((segment) => segment.toDay >= day));
}
