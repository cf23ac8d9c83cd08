import type { UnitTimeline } from '../oil/charge.ts';
import type { UnitHistory } from '../schema/history.ts';

/** Which states a unit has, and why not. */
export interface Applicability {
  readonly sludge: boolean;
  readonly chain: boolean;
  readonly phaser: boolean;
  readonly reasons: Readonly<Record<string, string>>;
}

/**
 * Which wear states can be said of a unit. Belts and gears have no chain, engines without phasers no phaser: "not
 * applicable", never 0. Gaseous fuel and hybrids without recorded engine hours have no calibrated rates: "not known".
 */
export function applicabilityOf(timeline: UnitTimeline, history: UnitHistory): Applicability {
  const { engine } = history;
  const all = (words: string): Applicability => ({
    sludge: false,
    chain: false,
    phaser: false,
    reasons: { sludge: words, chain: words, phaser: words },
  });
  if (timeline.charges.length === 0) return all('not known: no records to estimate from');
  if (engine?.fuelSystem === 'gas') return all('not known: no calibrated rates for gaseous fuel');
  if (history.unit.powertrain === 'hybrid' && timeline.duty.inferred.includes('engineHours'))
    return all('not known: a hybrid without recorded engine hours');
  const reasons: Record<string, string> = {};
  const chain = chainReason(history);
  const phaser = phaserReason(history);
  if (chain !== null) reasons.chain = chain;
  if (phaser !== null) reasons.phaser = phaser;
  return { sludge: true, chain: chain === null, phaser: phaser === null, reasons };
}

function chainReason({ engine, unit }: UnitHistory): string | null {
  if (engine === null)
    return unit.engineFamily === null
      ? 'not known: the engine family is not recorded'
      : `not known: engine family ${unit.engineFamily} is not described`;
  switch (engine.timingDrive) {
    case 'chain':
    case 'silent_chain':
      return null;
    case 'belt':
      return 'not applicable: timing belt';
    case 'wet_belt':
      return 'not applicable: timing belt running in oil; its age, the approved oil and fuel in the oil count';
    case 'gear':
      return 'not applicable: timing gears';
    default:
      return 'not known: the timing drive is not recorded';
  }
}

function phaserReason({ engine, unit }: UnitHistory): string | null {
  if (engine === null)
    return unit.engineFamily === null
      ? 'not known: the engine family is not recorded'
      : `not known: engine family ${unit.engineFamily} is not described`;
  if (engine.phasers === null) return 'not known: whether the engine has phasers is not recorded';
  return engine.phasers > 0 ? null : 'not applicable: engine without phasers';
}
