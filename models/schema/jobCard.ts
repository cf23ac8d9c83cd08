import { z } from 'zod';
import { isoDate } from './day.ts';
import { evidenceKind } from './coefficient.ts';
import { findingKinds } from './finding.ts';
import { workKinds } from './service.ts';
import { shopJobs } from './shopPlan.ts';

/** What a step asks of the person who does it. */
export const stepNeeds = ['tick', 'value', 'reference', 'second_person'] as const;

/** A value that is written down with a step. */
export const stepValue = z.object({
  label: z.string(),
  type: z.enum(['number', 'text', 'choice']),
  unit: z.string().optional(),
  choices: z.array(z.string()).optional(),
});

const step = z.object({
  id: z.string(),
  section: z.string(),
  words: z.string(),
  needs: z.enum(stepNeeds),
  value: stepValue.optional(),
  optional: z.boolean().optional(),
  kind: evidenceKind,
  source: z.string(),
});

/** Where a step belongs: attributes of the engine family, and jobs that must not be on the card. */
export const stepCondition = z.object({
  drive: z.array(z.enum(['chain', 'silent_chain', 'belt', 'wet_belt', 'gear'])).optional(),
  phasers: z.boolean().optional(),
  interference: z.boolean().optional(),
  banks: z.number().int().optional().describe('this many banks or more'),
  without: z.array(z.enum(shopJobs)).optional(),
});
export type StepCondition = z.infer<typeof stepCondition>;

/** The catalog of steps, in working order. */
export const cardStepFile = z.object({
  title: z.string(),
  sections: z.array(z.string()),
  steps: z.array(step.extend({ jobs: z.array(z.enum(shopJobs)), when: stepCondition.optional() })),
});
export type CardStepFile = z.infer<typeof cardStepFile>;

/** A step on the card of one unit; `unsure` says what is not known of the engine family. */
export const cardStep = step.extend({ unsure: z.string().nullable() });
export type CardStep = z.infer<typeof cardStep>;

/** A tool or part that lies ready. */
export const cardItem = z.object({
  item: z.string().describe('name as in the stock records'),
  words: z.string(),
  quantity: z.number().min(0).nullable().describe('null: by the maker, not known here'),
  measure: z.enum(['l', 'pieces']),
  oneTime: z.boolean().describe('used once'),
  onHand: z.number().nullable().describe('null: no stock record at the site'),
});
export type CardItem = z.infer<typeof cardItem>;

/** A place for a finding. */
export const cardFinding = z.object({
  finding: z.enum(findingKinds),
  label: z.string(),
  bank: z.string().nullable(),
  input: z.enum(['number', 'percent', 'choice', 'yesno']),
  unit: z.string(),
  choices: z.array(z.string()),
});
export type CardFinding = z.infer<typeof cardFinding>;

/** What a technician needs for one visit of one unit. */
export const jobCard = z.object({
  unitNumber: z.string(),
  description: z.string().nullable(),
  site: z.string().nullable(),
  engineFamily: z.string().nullable(),
  engineWords: z.string(),
  jobs: z.array(z.enum(shopJobs)),
  jobWords: z.array(z.string()),
  asOf: isoDate,
  lastOdometerKm: z.number().nullable().meta({ unit: 'km' }),
  cautions: z.array(z.string()),
  tools: z.array(z.string()),
  items: z.array(cardItem),
  oil: z
    .object({
      grade: z.string().nullable(),
      category: z.string().nullable(),
      amountL: z.number().nullable().meta({ unit: 'L' }),
    })
    .nullable(),
  steps: z.array(cardStep),
  findings: z.array(cardFinding),
  renewable: z
    .array(z.enum(workKinds))
    .describe('parts that this card can renew; the first ones are its jobs'),
  makersReferenceNeeded: z.boolean(),
  plannedHours: z.number().nullable().meta({ unit: 'h' }),
  notes: z.array(z.string()).describe('what is not known and therefore left open'),
});
export type JobCard = z.infer<typeof jobCard>;

const name = (most = 100) => z.string().trim().max(most);

/** A step as it was left. */
export const closedStep = z.object({
  id: z.string(),
  done: z.boolean(),
  value: name(300).nullable().default(null),
  person: name().nullable().default(null),
  leftOut: name(300).nullable().default(null).describe('why it was not done'),
});

/** A card as it is sent when the work is done. */
export const cardClosing = z.object({
  technician: name(),
  closedOn: isoDate.nullable().default(null).describe('null: the day that the store stands at'),
  odometerKm: z.number().min(0).max(5e6).nullable().default(null).meta({ unit: 'km' }),
  engineHoursH: z.number().min(0).max(200_000).nullable().default(null).meta({ unit: 'h' }),
  makersReference: name(300).nullable().default(null).describe("the maker's procedure that was followed"),
  jobsDone: z.array(z.enum(shopJobs)),
  steps: z.array(closedStep).max(200),
  oil: z
    .object({
      grade: name(40),
      category: name(40).nullable().default(null),
      amountL: z.number().min(0).max(200).meta({ unit: 'L' }),
      filterChanged: z.boolean(),
    })
    .nullable()
    .default(null),
  usedOilL: z.number().min(0).max(200).nullable().default(null).meta({ unit: 'L' }),
  findings: z
    .array(
      z.object({
        finding: z.enum(findingKinds),
        value: name(200).min(1),
        bank: name(20).nullable().default(null),
        note: name(300).nullable().default(null),
      }),
    )
    .max(40)
    .default([]),
  renewed: z
    .array(
      z.object({
        work: z.enum(workKinds),
        bank: name(20).nullable().default(null),
        revision: name(60).nullable().default(null),
      }),
    )
    .max(20)
    .default([]),
  cleared: name(500)
    .nullable()
    .default(null)
    .describe('ends what stands against driving, in the technician’s name: what was checked'),
  outcome: z.enum(['planned', 'failed']).nullable().default(null),
  labourHours: z.number().min(0).max(1000).nullable().default(null).meta({ unit: 'h' }),
  costCents: z.number().int().min(0).max(1e11).nullable().default(null).meta({ unit: 'cents' }),
  stockUsed: z
    .array(z.object({ item: name(120).min(1), quantity: z.number().min(0).max(10_000) }))
    .max(40)
    .default([]),
  note: name(1000).nullable().default(null),
});
export type CardClosing = z.infer<typeof cardClosing>;
