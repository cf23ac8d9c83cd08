import { dayFromIso } from '../../models/schema/day.ts';
import type { UnitPlan } from '../simulation/plan.ts';
import { recordingHabits } from '../simulation/recording.ts';
import type { FleetRows } from '../simulation/rows.ts';
import { endDay } from './groups.ts';

/** A unit with a history that a practitioner recognises. */
export interface Story {
  readonly unitNumber: string;
  readonly title: string;
  /** what its plan has that chance would not give */
  readonly change: (plan: UnitPlan) => UnitPlan;
}

const never = endDay + 1;
const rich = { ...recordingHabits.rich, sampleShare: 0.7 };

export const stories: readonly Story[] = [
  {
    unitNumber: '1107',
    title: 'Careful highway: every change on time, samples on most of them',
    change: (plan) => ({
      ...plan,
      inServiceDay: dayFromIso('2020-12-07'),
      firstRecordDay: dayFromIso('2020-12-07'),
      spareUntilDay: never,
      recording: rich,
      habit: {
        ...plan.habit,
        intervalKm: 11000,
        intervalHours: 240,
        intervalMonths: 11,
        lateLogSd: 0.03,
        missedChance: 0,
        elsewhereChance: 0,
        wrongOil: null,
      },
    }),
  },
  {
    unitNumber: '2205',
    title: 'Idling patrol on the distance sticker: phasers failed in 2024, sludge again',
    change: (plan) => ({
      ...plan,
      inServiceDay: dayFromIso('2020-03-16'),
      firstRecordDay: dayFromIso('2020-11-01'),
      recording: recordingHabits.rich,
      idleFactor: 1.35,
      habit: {
        ...plan.habit,
        intervalKm: 12000,
        intervalHours: null,
        intervalMonths: 12,
        lateLogSd: 0.06,
        missedChance: 0,
        elsewhereChance: 0,
      },
      scripted: [
        {
          day: dayFromIso('2024-05-14'),
          component: 'phaser',
          works: ['phaser', 'oil_change', 'filter'],
          outcome: 'failed',
          disposes: false,
        },
      ],
      spareUntilDay: never,
    }),
  },
  {
    unitNumber: '5504',
    title: 'Short trips in the cold, changed every eight months: fuel in the oil all winter',
    change: (plan) => ({
      ...plan,
      inServiceDay: dayFromIso('2019-06-03'),
      firstRecordDay: dayFromIso('2020-11-01'),
      recording: rich,
      duty: { ...plan.duty, tripKm: 2.4, soakedStarts: 7 },
      useFactor: 0.95,
      habit: {
        ...plan.habit,
        intervalKm: 8000,
        intervalHours: null,
        intervalMonths: 8,
        missedChance: 0,
        elsewhereChance: 0,
      },
      spareUntilDay: never,
    }),
  },
  {
    unitNumber: '4425',
    title: 'Towing: hot oil, oxidation in the samples, no severe book interval for the family',
    change: (plan) => ({
      ...plan,
      duty: { ...plan.duty, towingShare: 0.7 },
      inServiceDay: dayFromIso('2021-04-12'),
      firstRecordDay: dayFromIso('2021-04-12'),
      recording: rich,
      habit: { ...plan.habit, intervalKm: 8000, intervalHours: null, intervalMonths: 9 },
      spareUntilDay: never,
    }),
  },
  {
    unitNumber: '6625',
    title: 'Wrong grade: 10W-40 of an older category where 0W-20 is asked for',
    change: (plan) => ({
      ...plan,
      inServiceDay: dayFromIso('2019-09-02'),
      firstRecordDay: dayFromIso('2020-11-01'),
      recording: { ...recordingHabits.fair, gradeShare: 1 },
      habit: {
        ...plan.habit,
        intervalKm: 7300,
        intervalMonths: 11,
        missedChance: 0,
        wrongOil: { chance: 0.75, grade: '10W-40', category: 'API SN' },
      },
      spareUntilDay: never,
    }),
  },
  {
    unitNumber: '3306',
    title: 'Missed changes: none between early 2024 and autumn 2025',
    change: (plan) => ({
      ...plan,
      inServiceDay: dayFromIso('2020-08-10'),
      firstRecordDay: dayFromIso('2020-11-01'),
      recording: recordingHabits.fair,
      drainPause: { fromDay: dayFromIso('2024-02-01'), toDay: dayFromIso('2025-09-20') },
      spareUntilDay: never,
    }),
  },
  {
    unitNumber: '6603',
    title: 'Bought used in 2023: five years without a line of history',
    change: (plan) => ({
      ...plan,
      inServiceDay: dayFromIso('2018-03-05'),
      acquiredDay: dayFromIso('2023-04-12'),
      firstRecordDay: dayFromIso('2023-04-12'),
      useFactor: 1.2,
      spareUntilDay: never,
    }),
  },
  {
    unitNumber: '2203',
    title: 'Freshly renewed: timing set and phasers done as planned in September 2026',
    change: (plan) => ({
      ...plan,
      inServiceDay: dayFromIso('2017-10-09'),
      firstRecordDay: dayFromIso('2020-11-01'),
      recording: recordingHabits.rich,
      wearAtStart: { chainLasting: 0.2, phaser: 0.35, sludge: 1.5 },
      quietFromDay: dayFromIso('2020-11-01'),
      scripted: [
        {
          day: dayFromIso('2026-09-14'),
          component: 'chain',
          works: ['timing_set', 'phaser', 'oil_change', 'filter'],
          outcome: 'planned',
          disposes: false,
        },
      ],
      spareUntilDay: never,
    }),
  },
  {
    unitNumber: '2226',
    title: 'Screen found blocked in August 2026, cleaned and cleared',
    change: (plan) => ({
      ...plan,
      inServiceDay: dayFromIso('2019-02-11'),
      firstRecordDay: dayFromIso('2020-11-01'),
      wearAtStart: { sludge: 5.4, chainLasting: 0.06, phaser: 0.12 },
      cleanDay: dayFromIso('2026-08-21'),
      habit: { ...plan.habit, intervalKm: 8400, intervalHours: null, intervalMonths: 7, elsewhereChance: 0 },
      quietFromDay: dayFromIso('2020-11-01'),
      spareUntilDay: never,
    }),
  },
  {
    unitNumber: '2202',
    title: 'Rattle and a correlation code in the last days: the open stop',
    change: (plan) => ({
      ...plan,
      inServiceDay: dayFromIso('2017-05-15'),
      firstRecordDay: dayFromIso('2020-11-01'),
      recording: recordingHabits.rich,
      wearAtStart: { chainLasting: 0.27, phaser: 0.2, sludge: 1 },
      habit: { ...plan.habit, intervalKm: 9500, intervalHours: null, intervalMonths: 9 },
      quietFromDay: dayFromIso('2020-11-01'),
      spareUntilDay: never,
    }),
  },
];

/** Units that leave, one of them for a timing failure, and the number that is given out again. */
export const leavers: readonly {
  readonly unitNumber: string;
  readonly on: string;
  readonly reason: string;
}[] = [
  { unitNumber: '1101', on: '2022-04-28', reason: 'end of planned life' },
  { unitNumber: '1103', on: '2023-05-31', reason: 'sold at auction' },
  { unitNumber: '1121', on: '2024-06-14', reason: 'end of planned life' },
  { unitNumber: '2201', on: '2023-09-08', reason: 'timing failure, not worth the repair' },
  { unitNumber: '2221', on: '2024-03-15', reason: 'end of planned life' },
  { unitNumber: '3301', on: '2025-02-20', reason: 'sold at auction' },
  { unitNumber: '4401', on: '2024-10-04', reason: 'frame corrosion' },
  { unitNumber: '6601', on: '2022-11-17', reason: 'collision damage' },
  { unitNumber: '6621', on: '2025-08-29', reason: 'end of planned life' },
];

/** The unit that carries number 1103 after the first one was sold. */
export const reissued = { unitNumber: '1103', from: '1112', inServiceOn: '2023-07-10' } as const;

/** Applies stories, leavers and the reissued number. */
export function withStories(plans: readonly UnitPlan[]): readonly UnitPlan[] {
  return plans.map((plan) => {
    const story = stories.find((entry) => entry.unitNumber === plan.unitNumber);
    if (story) return story.change(plan);
    if (plan.unitNumber === reissued.from) {
      const day = dayFromIso(reissued.inServiceOn);
      return { ...plan, unitNumber: reissued.unitNumber, inServiceDay: day, firstRecordDay: day };
    }
    const leaver = leavers.find((entry) => entry.unitNumber === plan.unitNumber);
    if (!leaver) return plan;
    const day = dayFromIso(leaver.on);
    const failed = leaver.reason.startsWith('timing');
    const gone = {
      ...plan,
      lastDay: day,
      disposalDay: day,
      disposalReason: leaver.reason,
      plannedDisposalDay: day,
      spareUntilDay: failed ? never : null,
    };
    if (!failed) return gone;
    return {
      ...gone,
      scripted: [
        { day: day - 12, component: 'chain', works: ['timing_set'], outcome: 'failed', disposes: true },
      ],
    };
  });
}

/** What the stories add to the records beyond what the shop wrote by habit. */
export function tellStories(rows: FleetRows, odometerOn: (unitNumber: string, on: string) => number): void {
  const finding = (
    unitNumber: string,
    foundOn: string,
    finding: 'start_rattle_s' | 'screen_blocked_share' | 'cover_view' | 'cleared',
    value: string,
    note: string,
    more: object = {},
  ) =>
    rows.findings.push({
      unitNumber,
      foundOn,
      odometerKm: odometerOn(unitNumber, foundOn),
      finding,
      value,
      note,
      ...more,
    });
  rows.codes.push({ unitNumber: '2226', seenOn: '2026-08-17', code: 'P0011', status: 'stored' });
  finding('2226', '2026-08-20', 'screen_blocked_share', '0.38', 'bank 1 screen, flakes and varnish', {
    bank: '1',
  });
  finding('2226', '2026-08-20', 'cover_view', 'heavy', 'front cover off on bank 1');
  finding(
    '2226',
    '2026-08-24',
    'cleared',
    'Maud S.',
    'screen cleaned, pan dropped, pressure 160 kPa hot at idle, next change early',
  );
  finding('2205', '2026-07-09', 'cover_view', 'heavy', 'seen while the cover gasket was renewed');
  rows.codes.push({ unitNumber: '2202', seenOn: '2026-10-27', code: 'P0016', status: 'stored' });
  finding('2202', '2026-10-28', 'start_rattle_s', '6.5', 'after the night, settles late', {
    soakH: 11,
  });
}
