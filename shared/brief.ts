import { z } from 'zod';
import { approvalSchema, mostApprovals, withApprovals } from './approval.ts';
import { briefFields } from './brief-sections.ts';
import { findingSchema, questionIds } from './finding.ts';
import { viewSchema } from './view.ts';

const text = z.string().max(20_000);
const unitsSchema = z.enum(['us', 'metric']);

/** What the engineer wrote, by the field's name; a field without an entry is not written yet. */
const wordsSchema = z.partialRecord(z.enum(briefFields.map(({ name }) => name) as [string, ...string[]]), text);

/** A picture held in the brief itself: nothing is fetched to show it. */
const photoSchema = z.object({
  id: z.string().min(1),
  name: z.string().max(300),
  caption: text.default(''),
  picture: z
    .string()
    .max(8_000_000)
    .regex(/^data:image\/(?:png|jpeg|webp);base64,[A-Za-z0-9+/]+={0,2}$/, 'a PNG, JPEG or WebP picture as a data URL'),
});
export type BriefPhoto = z.infer<typeof photoSchema>;

const written = {
  title: z.string().max(300).default(''),
  revision: z.string().max(60).default('A'),
  words: wordsSchema.default({}),
  photos: z.array(photoSchema).max(60).default([]),
  approvals: z.array(approvalSchema).max(mostApprovals).default([]),
};

/** What a brief asks and says, without the answers: enough to make it again from the records. */
export const briefPlanSchema = z.preprocess(
  withApprovals,
  z.object({
    ...written,
    asks: z.array(
      z.object({
        question: z.enum(questionIds),
        view: viewSchema,
        units: unitsSchema.default('us'),
        note: text.default(''),
      }),
    ),
  }),
);
export type BriefPlan = z.infer<typeof briefPlanSchema>;

const entrySchema = z.object({
  id: z.string().min(1),
  finding: findingSchema,
  /** Those of the finding's sentences; its numbers stay in miles. */
  units: unitsSchema,
  note: text.default(''),
});
export type BriefEntry = z.infer<typeof entrySchema>;

export const briefVersion = 1;

/** A brief in the making, or as it was handed over: findings as they were made, in order, and the words around them. */
export const briefSchema = z.preprocess(
  withApprovals,
  z.object({
    brief: z.literal(briefVersion),
    ...written,
    entries: z.array(entrySchema).max(60),
  }),
);
export type Brief = z.infer<typeof briefSchema>;

export const emptyBrief: Brief = briefSchema.parse({ brief: briefVersion, entries: [] });

export const planOf = ({ title, revision, words, photos, approvals, entries }: Brief): BriefPlan => ({
  ...{ title, revision, words, photos, approvals },
  asks: entries.map(({ finding, units, note }) => ({
    question: finding.question,
    view: finding.settings,
    units,
    note,
  })),
});
