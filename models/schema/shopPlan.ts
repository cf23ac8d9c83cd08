import { z } from 'zod';
import { isoDate } from './day.ts';

/** The work that a shop plan knows, in the words of service records and findings. */
export const shopJobs = [
  'oil_change',
  'screen_look',
  'cover_view',
  'phase_reading',
  'sample',
  'timing_set',
  'phaser',
  'oil_control_solenoid',
  'check',
] as const;
export type ShopJob = (typeof shopJobs)[number];

const cents = () => z.number().int().meta({ unit: 'cents' });
const hours = () => z.number().min(0).meta({ unit: 'h' });

/** One amount of a visit's cost, in words; negative for what is won. */
export const costPart = z.object({ words: z.string(), cents: cents() });

/** The same with what it is for; `price` is that of an outside shop. */
export const visitCostPart = costPart.extend({
  part: z.enum(['set_up', 'downtime', 'late', 'early', 'price']),
});
export type VisitCostPart = z.infer<typeof visitCostPart>;

/** What lies ready for a job or is ordered. */
export const supplyKinds = ['oil', 'filter', 'kit', 'one_time'] as const;
export const planItem = z.object({
  item: z.string().describe('name as in the stock records'),
  kind: z.enum(supplyKinds),
  quantity: z.number().min(0),
  measure: z.enum(['l', 'pieces']),
});
export type PlanItem = z.infer<typeof planItem>;

/** One job of a visit. */
export const plannedJob = z.object({
  jobId: z.string().describe('stays the same when the plan is made again'),
  job: z.enum(shopJobs),
  words: z.string(),
  hours: hours(),
  skill: z.string().nullable(),
  dueOnEarliest: isoDate,
  dueOn: isoDate.describe('median'),
  dueOnLatest: isoDate,
  items: z.array(planItem),
});
export type PlannedJob = z.infer<typeof plannedJob>;

/** One unit's visit: its jobs in one stay. */
export const planVisit = z.object({
  id: z.string().describe('stays the same when the plan is made again'),
  unitNumber: z.string(),
  site: z.string(),
  unitSite: z.string().nullable().describe("the unit's home site"),
  place: z.enum(['bay', 'outside', 'mobile']),
  outsideShop: z.string().nullable(),
  bay: z.string().nullable(),
  technician: z.string().nullable(),
  startsAt: z.string().describe("local time of the site with its offset, '2026-04-01T08:00:00-05:00'"),
  endsAt: z.string(),
  on: isoDate.describe('first day'),
  lastDay: isoDate.describe('last day in the shop'),
  startMinute: z.number().int().describe('local minutes after midnight of the first day'),
  endMinute: z.number().int().describe('local minutes after midnight of the last day'),
  hours: hours().describe('in the bay, set-up included'),
  jobs: z.array(z.enum(shopJobs)),
  jobDetails: z.array(plannedJob),
  dueFrom: isoDate.describe('start of the 80 % range of the job that falls due first'),
  dueTo: isoDate.describe('end of it'),
  locked: z.boolean(),
  costCents: cents().describe('expected, of having the visit on this day'),
  costParts: z.array(visitCostPart),
});
export type PlanVisit = z.infer<typeof planVisit>;

/** Why a job has no place. */
export const notPlacedCodes = [
  'no_capacity',
  'no_skill',
  'too_long',
  'unit_not_spared',
  'parts_never',
  'parts_late',
  'no_room',
  'no_site',
  'later',
] as const;
export type NotPlacedCode = (typeof notPlacedCodes)[number];

export const notPlacedJob = z.object({
  jobId: z.string(),
  unitNumber: z.string(),
  site: z.string(),
  job: z.enum(shopJobs),
  words: z.string(),
  dueOn: isoDate,
  code: z.enum(notPlacedCodes),
  reason: z.string(),
  costCents: cents().describe('expected price of leaving it until after the plan'),
});
export type NotPlacedJob = z.infer<typeof notPlacedJob>;

/** Load of one technician, or of the whole site where `technician` is null, on one day. */
export const planLoad = z.object({
  site: z.string(),
  on: isoDate,
  technician: z.string().nullable(),
  bay: z.string().nullable(),
  usedHours: hours(),
  capacityHours: hours(),
});
export type PlanLoad = z.infer<typeof planLoad>;

/** What a week takes from the shelf of a site. */
export const planSupply = z.object({
  week: isoDate.describe('its Monday'),
  site: z.string(),
  item: z.string(),
  kind: z.enum(supplyKinds),
  quantity: z.number().min(0),
  measure: z.enum(['l', 'pieces']),
  toOrder: z.number().min(0).describe('what the shelf does not cover by then'),
  orderBy: isoDate.nullable().describe('last day to order; null where nothing is to be ordered'),
});
export type PlanSupply = z.infer<typeof planSupply>;

/** Days that units of a site spend in the shop in a week. */
export const planDowntime = z.object({
  site: z.string(),
  week: isoDate.describe('its Monday'),
  days: z.number().min(0).meta({ unit: 'd' }),
  cents: cents(),
});
export type PlanDowntime = z.infer<typeof planDowntime>;

/** What is other than in the earlier plan. */
export const planDifference = z.object({
  kind: z.enum(['moved', 'new', 'gone', 'other_jobs']),
  visitId: z.string(),
  unitNumber: z.string(),
  before: z.string().nullable(),
  after: z.string().nullable(),
  words: z.string(),
});
export type PlanDifference = z.infer<typeof planDifference>;

/** Cost, bound and gap of one site; sites share nothing, so that the plan's are their sums. */
export const sitePlan = z.object({
  site: z.string(),
  objectiveCents: cents(),
  boundCents: cents(),
  idealCents: cents(),
  gap: z.number().min(0),
});

/** The document that `plan --json` prints. */
export const shopPlan = z.object({
  from: isoDate,
  weeks: z.number().int(),
  asOf: isoDate.describe('what the due dates rest on'),
  objectiveCents: cents(),
  boundCents: cents().describe('no plan costs less'),
  idealCents: cents().describe('with unlimited bays and people'),
  gap: z.number().min(0).describe('(objective − bound) / (objective − ideal)'),
  sites: z.array(sitePlan),
  visits: z.array(planVisit),
  notPlaced: z.array(notPlacedJob),
  loads: z.array(planLoad),
  supplies: z.array(planSupply),
  downtime: z.array(planDowntime),
  differences: z.array(planDifference),
  messages: z.array(z.string()).describe('assumptions and what holds for the whole plan'),
});
export type ShopPlan = z.infer<typeof shopPlan>;

/** Where a visit is to go. Left out parts stay as they are. */
export const moveTarget = z.object({
  on: isoDate,
  technician: z.string().nullable().optional(),
  bay: z.string().nullable().optional(),
  startMinute: z.number().int().min(0).max(1439).optional(),
});
export type MoveTarget = z.infer<typeof moveTarget>;

/** One change to a plan; what changed in the records (a technician away, a part late) comes in with the inputs. */
export const planChange = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('records'),
    site: z.string().optional().describe('the only site that it touches'),
  }),
  z.object({ kind: z.literal('lock'), visitId: z.string() }),
  z.object({ kind: z.literal('unlock'), visitId: z.string() }),
  z.object({ kind: z.literal('move'), visitId: z.string(), to: moveTarget }),
]);
export type PlanChange = z.infer<typeof planChange>;

/** What a move costs against the plan as it stands. */
export const moveCost = z.object({
  visitId: z.string(),
  possible: z.boolean(),
  conflicts: z.array(z.string()).describe('why it can not be there as it stands'),
  costCents: cents().describe('more than now; negative = cheaper'),
  parts: z.array(costPart).describe('what it is made of'),
});
export type MoveCost = z.infer<typeof moveCost>;
