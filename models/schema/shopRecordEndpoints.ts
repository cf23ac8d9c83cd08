import { z } from 'zod';
import { isoDate } from './day.ts';
import { shopJobs } from './shopPlan.ts';

const name = (most = 100) => z.string().trim().min(2).max(most);
const cents = () => z.number().int().min(0).max(1e10).meta({ unit: 'cents' });

/** Days on which a site, or every site, is shut. */
export const holiday = z.object({
  kind: z.literal('holiday'),
  name: name(),
  on: isoDate,
  through: isoDate.nullable().default(null).describe('last day; null = one day'),
  site: z.string().max(100).nullable().default(null).describe('null = every site'),
});

/** A shop of others, or a mobile service: takes no bay and no technician of one's own. */
export const outsideShop = z.object({
  kind: z.literal('outside_shop'),
  name: name(),
  mobile: z.boolean().default(false).describe('comes to the unit'),
  site: z
    .string()
    .max(100)
    .nullable()
    .default(null)
    .describe('the only site that it serves; null = every site'),
  weekdays: z.string().max(60).default('mon-fri').describe('`mon-fri` or `mon,tue,sat`'),
  turnaroundDays: z.number().int().min(0).max(90).default(0).meta({ unit: 'd' }),
  prices: z
    .array(z.object({ job: z.enum(shopJobs), cents: cents() }))
    .min(1)
    .max(shopJobs.length)
    .describe('parts and oil included; a job that is missing is not offered'),
});

/** A unit that stands in for one that is in the shop, one at a time. */
export const loanUnit = z.object({
  kind: z.literal('loan_unit'),
  name: name(),
  site: z.string().min(1).max(100),
  centsPerDay: cents().default(0).describe('what a day of its use costs'),
});

export const shopResource = z.discriminatedUnion('kind', [holiday, outsideShop, loanUnit]);
export type ShopResource = z.infer<typeof shopResource>;

/** A resource as it is kept. */
export const keptResource = z.object({
  id: z.number().int(),
  resource: shopResource,
  madeAt: z.string(),
  madeBy: z.string(),
});
export type KeptResource = z.infer<typeof keptResource>;

/** What went on (above 0) or off (below 0) a shelf. */
export const stockMovement = z.object({
  id: z.number().int(),
  item: z.string(),
  site: z.string(),
  quantity: z.number(),
  on: isoDate,
  who: z.string(),
  note: z.string().nullable(),
});
export type StockMovement = z.infer<typeof stockMovement>;

const shelfItem = z.object({
  item: z.string(),
  site: z.string().nullable(),
  onHand: z.number().nullable(),
  leadTimeDays: z.number().nullable().meta({ unit: 'd' }),
  unitCostCents: z.number().int().nullable().meta({ unit: 'cents' }),
});

/** A row that a person adds to the records of people, of days that can't be spared, or of the shelf. */
export const shopRow = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('technicians'),
    technician: name(),
    site: z.string().min(1).max(100),
    skills: z.string().max(200).nullable().default(null),
    hoursPerDay: z.number().gt(0).max(24).nullable().default(null).meta({ unit: 'h' }),
    awayFrom: isoDate.nullable().default(null),
    awayTo: isoDate.nullable().default(null),
  }),
  z.object({
    kind: z.literal('blackouts'),
    unitNumber: z.string().min(1).max(100),
    from: z.string().min(1).max(60).describe('first day, or weekdays such as `mon,tue`'),
    to: isoDate.nullable().default(null).describe('last day; null with weekdays, or for one day'),
    reason: z.string().trim().max(200).nullable().default(null),
  }),
  z.object({
    kind: z.literal('stock'),
    item: name(120),
    site: z.string().min(1).max(100),
    onHand: z.number().min(0).max(1e6),
    leadTimeDays: z.number().min(0).max(2000).nullable().default(null).meta({ unit: 'd' }),
    unitCostCents: cents().nullable().default(null),
  }),
]);
export type ShopRow = z.infer<typeof shopRow>;

/** What a shop has beside its plan. */
export const shopRecords = z.object({
  asOf: isoDate,
  sites: z.array(
    z.object({
      site: z.string(),
      bays: z.number().int(),
      opensAtMinute: z.number().int(),
      closesAtMinute: z.number().int(),
      weekdays: z.array(z.boolean()).describe('Monday to Sunday'),
      timeZone: z.string(),
    }),
  ),
  technicians: z.array(
    z.object({
      technician: z.string(),
      site: z.string(),
      skills: z.array(z.string()).nullable().describe('null = everything'),
      hoursPerDay: z.number().meta({ unit: 'h' }),
      away: z.array(z.object({ from: isoDate, to: isoDate })),
    }),
  ),
  blackouts: z.array(
    z.object({
      unitNumber: z.string(),
      from: z.string().nullable(),
      to: z.string().nullable(),
      reason: z.string().nullable(),
    }),
  ),
  resources: z.array(keptResource),
  messages: z.array(z.string()).describe('what is taken where nothing is recorded'),
});
export type ShopRecords = z.infer<typeof shopRecords>;

/** Endpoints of people, places, outside shops, holidays, loan units and shelves. */
export const shopRecordEndpoints = {
  shopRecords: {
    method: 'get',
    path: '/api/shop-records',
    summary: 'Sites, people, days that units can not be spared, outside shops, holidays and loan units',
    response: shopRecords,
  },
  addShopResource: {
    method: 'post',
    path: '/api/shop-records/resources',
    summary: 'Notes a holiday, an outside shop or mobile service, or a loan unit; plans use it from then on',
    body: z.object({ resource: shopResource, by: name() }),
    response: keptResource,
  },
  endShopResource: {
    method: 'post',
    path: '/api/shop-records/resources/:id/end',
    summary: 'Takes a holiday, an outside shop or a loan unit out of later plans',
    body: z.object({ by: name() }),
    response: z.object({ id: z.number().int() }),
  },
  addShopRow: {
    method: 'post',
    path: '/api/shop-records/rows',
    summary:
      'Adds a row about people, spared days or a count of the shelf, as a batch that can be taken back',
    body: z.object({ row: shopRow, by: name() }),
    response: z.object({ batch: z.string() }),
  },
  shelf: {
    method: 'get',
    path: '/api/shelf',
    summary: 'What the shelves hold, and what went on and off them',
    response: z.object({
      asOf: isoDate,
      items: z.array(shelfItem),
      movements: z.array(stockMovement).describe('newest first, at most 200'),
    }),
  },
  moveStock: {
    method: 'post',
    path: '/api/shelf',
    summary: 'Notes what went on a shelf, or off it other than by a job card',
    body: z.object({
      item: z.string().trim().min(1).max(120),
      site: z.string().min(1).max(100),
      quantity: z.number().min(-1e6).max(1e6),
      on: isoDate.nullable().default(null).describe('null: the day that the store stands at'),
      who: name(),
      note: z.string().trim().max(300).nullable().default(null),
    }),
    response: z.object({ onHand: z.number().nullable() }),
  },
} as const;
