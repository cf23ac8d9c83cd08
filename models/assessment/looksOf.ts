import { recommendUnit } from '../decisions/unitRecommendation.ts';
import type { LookRanking } from '../decisions/looks.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { UnitLooks } from '../schema/looksEndpoint.ts';
import { wearRemedies, wearSentences } from '../wear/causeWords.ts';
import type { MoneySetting } from './moneyUnitOf.ts';
import { moneyUnitWithStates } from './moneyUnitWithStates.ts';
import { round } from './round.ts';
import type { UnitView } from './unitView.ts';

/**
 * What is worth looking at on a unit before anything is replaced, and why its wear is as it is.
 * Looks are ranked by what they save beyond their own cost (three states from the unit's own estimates, costs with
 * downtime over the judged months); a look whose results all lead to the same action is worth exactly 0.
 * @param currency ISO 4217
 * Source: value of information as in `rankLooks`; costs that are not recorded are filled and said.
 */
export function looksOf(
  view: UnitView,
  setting: MoneySetting,
  currency: string,
  coefficients: Coefficients,
): UnitLooks {
  const { states, history, timeline } = view;
  const unit = moneyUnitWithStates(view, setting, coefficients);
  const three = unit.stateProbabilities;
  const { judged, costs, cover } = recommendUnit(unit, timeline.asOfDay, 12, coefficients, currency);
  const ranking = judged?.ranking ?? null;
  return {
    unitNumber: history.unit.unitNumber,
    currency,
    states:
      three === null
        ? null
        : {
            restricted: round(three.restricted, 3),
            worn: round(three.worn, 3),
            neither: round(three.neither, 3),
          },
    months: judged?.months ?? null,
    actionNow: ranking?.actionNow ?? null,
    perfectCents: ranking === null ? null : Math.round(ranking.perfectCents),
    looks: ranking === null ? [] : shownLooks(ranking),
    reason: reasonNone(view, ranking),
    covered: cover.covered ? [...cover.reasons] : [],
    assumptions: [...costs.assumptions],
    wearSentences: [...wearSentences(states.now, states.causes)],
    causes: states.causes.map(({ state, cause, amount }) => ({ state, cause, amount })),
    remedies: [...wearRemedies(states.now, states.causes)],
  };
}

/** Looks as they are shown, in whole cents. */
function shownLooks(ranking: LookRanking): UnitLooks['looks'] {
  return ranking.looks.map(({ look, words, lookHours, worthCents, findings, ...cost }) => {
    const lookCents = Math.round(cost.lookCents + cost.lookDowntimeCents);
    const worth = Math.round(worthCents);
    return {
      look,
      words,
      lookCents,
      lookHours,
      worthCents: worth,
      netCents: worth - lookCents,
      findings: findings.map(({ finding, chance, action }) => ({
        finding,
        chance: round(chance, 3),
        action,
      })),
    };
  });
}

function reasonNone(
  { failureReason, failure, states }: UnitView,
  ranking: LookRanking | null,
): string | null {
  if (ranking !== null) return null;
  if (failure === null)
    return `the chance of a failure is not known: ${failureReason ?? 'there is too little to go by'}`;
  if (states.now.sludge === null) return states.notKnown.sludge ?? 'the wear is not known';
  return 'the unit is disposed of before a look could earn its cost';
}
