import type { Assessment, UnitAssessment } from '../schema/assessment.ts';
import type { FleetList, UnitLine } from '../schema/fleetList.ts';

const told = ['sludge', 'chain', 'phaser', 'failure', 'oil'] as const;

/** The line of one unit. */
export function unitLineOf(unit: UnitAssessment): UnitLine {
  const { oil, failure, duty, reasons, notKnown } = unit;
  const words: Record<string, string> = {};
  for (const name of told) if (unit[name] === null && name in notKnown) words[name] = notKnown[name];
  return {
    unitNumber: unit.unitNumber,
    call: unit.call,
    site: unit.site,
    dutyName: unit.dutyName,
    engineFamily: unit.engineFamily,
    odometerKm: unit.odometerKm,
    idleShare: duty.idleShare,
    idleInferred: duty.inferred.includes('idleShare'),
    reason: reasons[0] ?? '',
    furtherReasons: Math.max(0, reasons.length - 1),
    dueReason: unit.dueReason,
    oil: oil && {
      governingLimit: oil.governingLimit,
      dueOn: oil.dueOn,
      dueOnEarliest: oil.dueOnEarliest,
      dueOnLatest: oil.dueOnLatest,
    },
    sludge: unit.sludge,
    chain: unit.chain,
    phaser: unit.phaser,
    failure: failure && { probability: failure.probability, low: failure.low, high: failure.high },
    notKnown: words,
    nextStep: unit.nextStep,
  };
}

/** The lists' document: a fifth of the assessment's size, so that ten thousand units are drawn within a second. */
export function fleetListOf(assessment: Assessment): FleetList {
  return { ...assessment, units: assessment.units.map(unitLineOf) };
}
