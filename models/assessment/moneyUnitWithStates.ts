import type { MoneyUnit } from '../decisions/moneyUnit.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import { chainLimitOf } from '../wear/phaseGeometry.ts';
import { threeStates } from '../wear/threeStates.ts';
import { moneyUnitOf, type MoneySetting } from './moneyUnitOf.ts';
import type { UnitView } from './unitView.ts';

/**
 * A unit as the money side takes it, with what a look at it would find, so that looking first and cleaning can be judged
 * beside a renewal. An engine without a chain has no phase deviation to read, one without phasers no screen to pull.
 * @returns as {@link moneyUnitOf}; state chances by {@link threeStates}, null where no state is known
 */
export function moneyUnitWithStates(
  view: Pick<UnitView, 'history' | 'timeline' | 'states' | 'failure'>,
  setting: MoneySetting,
  coefficients: Coefficients,
): MoneyUnit {
  const { states, history } = view;
  const { chainPercent, phaserShare } = states.now;
  return {
    ...moneyUnitOf(view, setting),
    stateProbabilities: threeStates(states, chainLimitOf(history.engine, coefficients), coefficients),
    looksThatFit: {
      looks: [
        ...(phaserShare === null ? [] : (['screen'] as const)),
        'cover',
        ...(chainPercent === null ? [] : (['phase'] as const)),
      ],
      clean: phaserShare !== null,
    },
  };
}
