import { z } from 'zod';
import { changeRecordSchema } from './change-record.ts';
import { viewSchema } from './view.ts';

export const questionIds = [
  'seal-life',
  'mean-miles',
  'contamination',
  'causes',
  'shops',
  'detection',
  'rules',
  'dose',
  'repeats',
  'after-change',
  'savings',
  'renewal',
  'ahead',
] as const;
export type QuestionId = (typeof questionIds)[number];

export const firmnessWords = ['firm', 'fair', 'thin', 'too few'] as const;
export type Firmness = (typeof firmnessWords)[number];

/**
 * One number with its interval. A null limit is unbounded; a null value carries its reason.
 * `lower` and `upper` are those of the method named; where several wheel ends share a vehicle
 * `vehicleLower` and `vehicleUpper` allow for it, and the wider of the two decides and is shown.
 */
export const estimateSchema = z
  .object({
    value: z.number().nullable(),
    lower: z.number().nullable(),
    upper: z.number().nullable(),
    level: z.number(),
    unit: z.string(),
    method: z.string(),
    reason: z.string().optional(),
    vehicleLower: z.number().nullable().optional(),
    vehicleUpper: z.number().nullable().optional(),
  })
  .refine(({ value, reason }) => value !== null || reason !== undefined, {
    message: 'an estimate without a value gives its reason',
  });
export type Estimate = z.infer<typeof estimateSchema>;

/**
 * The limits that decide and are shown: at each end the outer of the method's own limit and the
 * vehicle-robust one, so that neither can make a finding look surer. Null = unbounded.
 */
export function shownLimits(estimate: Estimate): { readonly lower: number | null; readonly upper: number | null } {
  const { lower, upper, vehicleLower = lower, vehicleUpper = upper } = estimate;
  return {
    lower: lower === null || vehicleLower === null ? null : Math.min(lower, vehicleLower),
    upper: upper === null || vehicleUpper === null ? null : Math.max(upper, vehicleUpper),
  };
}

const groupSchema = z.object({
  /** Stored values of the cut columns joined by ` · `; `all` where nothing is cut. */
  label: z.string(),
  by: z.record(z.string(), z.string()),
  lives: z.number().int().nonnegative(),
  failures: z.number().int().nonnegative(),
  miles: z.number().nonnegative(),
  firmness: z.enum(firmnessWords),
  /** Further counts named by the question, e.g. `contaminated`, `notContaminated`, `unknown`. */
  counts: z.record(z.string(), z.number()).default({}),
  estimates: z.record(z.string(), estimateSchema),
  /** What is to be said of this group alone, in sentences. */
  notes: z.array(z.string()).optional(),
});
export type Group = z.infer<typeof groupSchema>;

/** The age, in what the finding's axis counts, from which a group's curve tells; null where it has none. */
export const curveFrom = ({ counts }: Group): number | null =>
  counts['curveFromMiles'] ?? counts['curveFromMonths'] ?? null;

/** Columns of equal length behind one line, band or table of the figure, for one group. */
const seriesSchema = z.object({
  name: z.string(),
  group: z.string(),
  columns: z.record(z.string(), z.array(z.number().nullable())),
});
export type Series = z.infer<typeof seriesSchema>;

/** A hot hub, a wheel lost otherwise than through its fasteners, or a vehicle put out of service at a wheel end. */
const severeEventSchema = z.object({
  kinds: z.array(z.enum(['hot-hub', 'wheel-lost', 'out-of-service'])).min(1),
  /** The group that fitted what was there. */
  group: z.string(),
  unitId: z.string(),
  position: z.string(),
  date: z.string(),
  mode: z.string(),
  /** Of a wheel lost: `bearing`, `other` or `unknown`. */
  lostBy: z.string().nullable(),
  failureId: z.string(),
  milesSinceFitted: z.number().nullable(),
});
export type SevereEvent = z.infer<typeof severeEventSchema>;

/** The change a finding judges, and what it is held against: what was written down, and when, or a date alone. */
const judgedChangeSchema = z.object({
  date: z.string(),
  shops: z.array(z.string()),
  against: z.enum(['written down beforehand', 'written down afterwards', 'a date given now']),
  record: changeRecordSchema.nullable(),
  /** SHA-256 of the record's canonical content, hex. */
  fingerprint: z.string().nullable(),
});
export type JudgedChange = z.infer<typeof judgedChangeSchema>;

/** A life of a list to be worked through, named so that it can be opened. */
const namedLifeSchema = z.object({
  lifeId: z.string(),
  unitId: z.string(),
  position: z.string(),
  role: z.string(),
  shop: z.string(),
  installDate: z.string().nullable(),
  /** Age where the records leave it. */
  miles: z.number().nullable(),
  /** Of a running life: how far it will run, and the chance that it fails on the way. */
  aheadMiles: z.number().nullable(),
  chance: z.number().nullable(),
  /** Of a removed one: the kind of which it was drawn. */
  kind: z.string().nullable(),
});
export type NamedLife = z.infer<typeof namedLifeSchema>;

const lifeListSchema = z.object({
  name: z.enum(['inspection', 'teardown']),
  /** What the list is of, how it was made, and what it does not say. */
  says: z.string(),
  lives: z.array(namedLifeSchema),
});
export type LifeList = z.infer<typeof lifeListSchema>;

export const doubtStates = ['holds', 'fails', 'cannot-tell'] as const;
const doubtSchema = z.object({
  name: z.string(),
  state: z.enum(doubtStates),
  detail: z.string(),
  settledBy: z.string(),
});
export type Doubt = z.infer<typeof doubtSchema>;

const fileSchema = z.object({
  name: z.string(),
  table: z.string(),
  read: z.number().int(),
  kept: z.number().int(),
  setAside: z.number().int(),
});

/** The hinge of the product: an answer with its numbers, its firmness and its doubts. */
export const findingSchema = z.object({
  question: z.enum(questionIds),
  /** The question in the user's words. */
  title: z.string(),
  answer: z.string(),
  /** Stretches of `answer` that carry its weight, each a literal substring. */
  emphasis: z.array(z.string()).default([]),
  /** What else belongs to the answer, where it can be read without: told beneath it, more quietly. */
  further: z.string().optional(),
  firmness: z.enum(firmnessWords),
  firmnessReason: z.string(),
  /** What has to be given before anything is judged; absent where something was. Nothing is firm or too few until then. */
  asks: z.string().optional(),
  settings: viewSchema,
  data: z.object({
    fingerprint: z.string(),
    files: z.array(fileSchema),
    lives: z.number().int(),
    failures: z.number().int(),
    miles: z.number(),
    setAside: z.number().int(),
    observedFrom: z.string().nullable(),
    observedTo: z.string().nullable(),
    /** Says on screen and in files that the records are made up. */
    invented: z.boolean(),
    /** Versions of the procedure that the lives were judged by; none where the lives came judged. */
    procedures: z.array(z.object({ name: z.string(), version: z.string(), validFrom: z.string() })).optional(),
  }),
  groups: z.array(groupSchema),
  series: z.array(seriesSchema),
  doubts: z.array(doubtSchema),
  /** Too few to compare, each one to be looked at; absent where no failure records stand behind the lives. */
  severeEvents: z.array(severeEventSchema).optional(),
  change: judgedChangeSchema.optional(),
  /** Lives to be looked at one by one, where the question names such. */
  lists: z.array(lifeListSchema).optional(),
  cautions: z.array(z.string()),
});
export type Finding = z.infer<typeof findingSchema>;
export type FindingData = Finding['data'];
