import { chanceWords } from '../decisions/chanceWords.ts';
import { engineHoursOf } from '../oil/amounts.ts';
import type { OilCharge } from '../oil/charge.ts';
import type { UnitAssessment } from '../schema/assessment.ts';
import { isoFromDay } from '../schema/day.ts';
import type { Coefficients } from '../schema/coefficient.ts';
import type { ChargeStory, LimitLine, RecordLink, StatePoint, UnitStory } from '../schema/story.ts';
import type { Ranged, WearPoint } from '../wear/states.ts';
import type { FleetAlarms } from './alarmPopulations.ts';
import type { Models } from './models.ts';
import { checkExtension } from './extensionApproval.ts';
import { sampleCourses, sampleViews } from './sampleViews.ts';
import type { UnitView } from './unitView.ts';
import { chargeAdvice } from './chargeAdvice.ts';
import { cautionsFor, heavySludgeIndex, type Caution } from './cautions.ts';
import { makeUpWords, rightOilEffect, seasonWords, topUpWords } from './oilInWords.ts';
import { recordLinks } from './recordLinks.ts';
import { round } from './round.ts';
import { whatWouldChange } from './whatWouldChange.ts';

/** Everything the unit page shows, from a unit that was worked through. */
export function unitStoryOf(
  view: UnitView,
  assessment: UnitAssessment,
  alarms: FleetAlarms,
  {
    coefficients,
    condemningLimits,
    oilCatalog,
  }: Pick<Models, 'coefficients' | 'condemningLimits' | 'oilCatalog'>,
): UnitStory {
  const { states, timeline, history, oil } = view;
  const records = recordLinks(history);
  const extension = checkExtension(view, null, condemningLimits, coefficients);
  const linkOf = (kind: string, id: number | null): RecordLink | null =>
    records.find((record) => record.kind === kind && record.id === id) ?? null;
  const linkById = (id: number | null, kinds: readonly string[]): RecordLink | null =>
    kinds.map((kind) => linkOf(kind, id)).find((link) => link !== null) ?? null;
  return {
    assessment,
    charges: timeline.charges.map((charge, index) => chargeStory(view, charge, index, coefficients)),
    limits: (oil?.advice.limits ?? []).map((line): LimitLine => ({
      limit: line.limit,
      atKm: line.limit === 'hours' || line.limit === 'calendar' ? null : positive(line.at.distanceKm),
      atHours: line.limit === 'calendar' ? null : positive(line.at.engineHours),
      atDays: positive(line.at.days),
      used: round(line.used, 3),
      marginDays: Math.round(line.margin * (oil?.advice.interval.days ?? 0)),
      words: line.words,
    })),
    intervalWords:
      oil === null
        ? []
        : [
            oil.advice.sentence,
            ...oil.advice.notes.map((note) => note.words),
            ...seasonWords(view, condemningLimits, coefficients),
          ],
    meters: meterPoints(view),
    sludge: statePoints(states.points, (point) => point.sludge),
    chain: statePoints(states.points, (point) => point.chainPercent),
    phaser: statePoints(states.points, (point) => point.phaserShare),
    evidence: states.evidence.map((entry) => ({
      on: isoFromDay(entry.day),
      state: entry.state,
      value: entry.observed === null ? null : round(entry.observed, 3),
      words: entry.weight < 0.5 ? `${entry.words} (far from what was expected: counted less)` : entry.words,
      link: linkById(
        entry.recordId,
        entry.state === 'oil' ? ['samples'] : ['findings', 'codes', 'samples', 'service'],
      ),
    })),
    renewals: states.renewals.map((renewal) => ({
      on: isoFromDay(renewal.day),
      words: renewalWords(renewal.part, renewal.outcome, renewal.failureChance),
      link: linkOf('service', renewal.recordId),
    })),
    records,
    cautions: cautionsFor(cautionPlaces(view)),
    whatWouldChange: whatWouldChange(view, coefficients),
    samples: sampleViews(view, coefficients),
    sampleCourses: sampleCourses(view, alarms, condemningLimits, coefficients),
    rightOil: (view.rightOil?.verdicts ?? []).map((verdict) => ({ ...verdict })),
    rightOilEffect: rightOilEffect(view, oilCatalog, coefficients),
    makeUp: makeUpWords(timeline),
    extension: {
      bookKm: positive(extension.bookKm ?? 0),
      mostKm: extension.mostKm,
      refusals: [...extension.refusals],
      evidence: [...extension.evidence],
      standing: view.standing.approval,
      blocked: view.standing.blocked,
    },
  };
}

const positive = (value: number): number | null => (value > 0 ? round(value, 3) : null);

function renewalWords(part: string, outcome: string, failureChance: number): string {
  const name = part === 'screen' ? 'oil control screen cleaned' : `${part.replaceAll('_', ' ')} renewed`;
  if (outcome === 'failed') return `${name} after it failed`;
  if (outcome === 'planned') return `${name} as planned`;
  return part === 'screen'
    ? name
    : `${name}; whether it failed is not recorded (chance that it did: ${chanceWords(failureChance)})`;
}

function statePoints(points: readonly WearPoint[], pick: (point: WearPoint) => Ranged | null): StatePoint[] {
  const list: StatePoint[] = [];
  for (const point of points) {
    const state = pick(point);
    if (state !== null)
      list.push({
        on: isoFromDay(point.day),
        value: round(state.value, 3),
        low: round(state.low, 3),
        high: round(state.high, 3),
      });
  }
  return list;
}

/** One charge with the interval that the model would have set for it at its own duty. */
function chargeStory(
  view: UnitView,
  charge: OilCharge,
  index: number,
  coefficients: Coefficients,
): ChargeStory {
  const { states } = view;
  const state = states.chargeEnds[index] ?? null;
  const { exposure } = charge;
  const advice = chargeAdvice(view, charge, coefficients);
  const running = charge.running && view.oil !== null ? view.oil.advice : null;
  const interval = running?.interval ?? advice?.interval ?? null;
  const notes = charge.faults.map((fault) =>
    fault === 'oil_level_low' && charge.levelLowLiters > 0
      ? `oil level low by ${Number(charge.levelLowLiters.toPrecision(2))} L`
      : fault.replaceAll('_', ' '),
  );
  if (charge.hiddenDrainChance > 0.05)
    notes.push(
      `chance ${chanceWords(charge.hiddenDrainChance)} that ${charge.hiddenDrains === 1 ? 'a drain' : `${charge.hiddenDrains} drains`} went unrecorded here`,
    );
  if (charge.breakIn) notes.push('break-in after engine or cover work');
  notes.push(...topUpWords(charge), ...(charge.notes ?? []));
  return {
    from: isoFromDay(charge.startDay),
    to: isoFromDay(charge.endDay),
    running: charge.running,
    grade: charge.grade,
    distanceKm: round(exposure.distanceKm, 4),
    engineHours: round(engineHoursOf(exposure), 4),
    idleHours: round(exposure.idleHours, 3),
    intervalKm: interval === null ? null : positive(interval.distanceKm),
    usedShare:
      running !== null ? round(running.used, 3) : advice === null ? null : round(advice.usedShare, 3),
    governingLimit: running?.governing ?? advice?.governing ?? null,
    startKnown: charge.startBasis !== 'first_record',
    notes,
    state:
      state === null
        ? null
        : {
            baseNumber: round(state.baseNumber, 3),
            acidNumber: round(state.acidNumber, 3),
            oxidation: round(state.oxidation, 3),
            fuelPercent: round(state.fuelPercent, 3),
            sootPercent: round(state.sootPercent, 3),
            kv100: round(state.kv100, 4),
            dispersancyUsed: round(state.dispersancyUsed, 3),
          },
  };
}

/** Meters at every charge border and now. */
function meterPoints({ timeline }: UnitView): UnitStory['meters'] {
  const days = new Set<number>([timeline.firstDay, timeline.asOfDay]);
  for (const charge of timeline.charges) days.add(charge.startDay);
  return [...days]
    .sort((a, b) => a - b)
    .map((day) => {
      const at = timeline.metersAt(day);
      return {
        on: isoFromDay(day),
        odometerKm: at === null ? null : round(at.odometerKm, 6),
        engineHours: at === null ? null : round(at.engineHours, 5),
        idleHours: at === null ? null : round(at.idleHours, 5),
      };
    });
}

/** Where the unit's own situation asks for a caution. */
function cautionPlaces({ states, oil, history, call }: UnitView): Caution['where'][number][] {
  const places: Caution['where'][number][] = ['always', 'interval'];
  const words = [
    ...states.stops,
    ...states.cautions,
    ...call.reasons.filter((reason) => reason.startsWith('sample of')),
  ]
    .join(' ')
    .toLowerCase();
  if (words.includes('pressure')) places.push('pressure');
  if (/correlation|rattle/.test(words)) places.push('correlation');
  if (history.codes.length > 0) places.push('code');
  if (
    /fuel|glycol|water|coolant/.test(words) ||
    oil?.advice.notes.some((note) => note.code.includes('fuel')) === true
  )
    places.push('contamination');
  if ((states.now.sludge?.high ?? 0) >= heavySludgeIndex) places.push('sludge');
  if (states.stops.length > 0) places.push('work');
  return places;
}
