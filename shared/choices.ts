import { z } from 'zod';
import { changeRecordSchema } from './change-record.ts';

/** What can be done about miles that are missing or cannot be right, in the words shown. Each can be switched off. */
export const mileageRules = {
  reset: 'meter reset or replaced, as a reading says',
  'unwritten-reset': 'meter reset or replaced, though no reading says so',
  'digit-slip': 'one digit too many',
  kilometres: 'kilometres written where miles belong',
  'runs-backward': 'runs backward',
  'too-fast': 'faster than 1,500 miles a day',
  interpolated: 'no miles written: between the nearest known miles',
  extrapolated: 'no miles written: carried on at the median pace of the unit',
  'like-units': 'no odometer: carried on at the median pace of like units',
} as const;
export type MileageRule = keyof typeof mileageRules;
export const mileageRuleNames = Object.keys(mileageRules) as MileageRule[];

/** Rules that put a number right by what was meant, rather than by its day; such miles are no better than interpolated ones. */
export const rightedRules = ['digit-slip', 'kilometres'] as const satisfies readonly MileageRule[];
export type RightedRule = (typeof rightedRules)[number];

const on = z.boolean().default(true);
const switches = Object.fromEntries(mileageRuleNames.map((rule) => [rule, on])) as Record<MileageRule, typeof on>;

/**
 * The dates between which one source would have recorded failures. `shop` is the home shop of its units;
 * `files` a pattern of file names (`*` any characters, `?` one), for those whose rows come from there.
 * A null date leaves that end to the record set's own window.
 */
export const windowSchema = z
  .object({
    shop: z.string().min(1).optional(),
    files: z.string().min(1).optional(),
    from: z.iso.date().nullable().default(null),
    to: z.iso.date().nullable().default(null),
  })
  .refine(({ shop, files }) => (shop === undefined) !== (files === undefined), {
    message: 'a window is of one shop or of the files of one pattern',
  })
  .refine(({ from, to }) => from === null || to === null || from <= to, { message: 'from must not be after to' });
export type SourceWindow = z.infer<typeof windowSchema>;

const span = z
  .object({ from: z.iso.date().nullable().default(null), to: z.iso.date().nullable().default(null) })
  .refine(({ from, to }) => from === null || to === null || from <= to, { message: 'from must not be after to' });

/** Rows that count as said before, in the words shown. Each rule can be switched off: its rows then count as any other. */
export const duplicateRules = {
  samePayload: 'the same wheel end, day and work under another id',
  reopenedOrders:
    'an order opened again: the same work under a later day or with another comment; the first day counts',
} as const;
export type DuplicateRule = keyof typeof duplicateRules;

/** What the reader of records decided about them: part of `record-set.json`, so that a folder says it too. */
export const choicesSchema = z.object({
  mileage: z.object(switches).prefault({}),
  /** Whether lives whose miles are estimated (`mileage_quality` extrapolated) take part in the answers. */
  estimatedLives: z.enum(['in', 'out']).default('in'),
  /** The window of the whole record set; a null date leaves that end to what the set itself says. */
  window: span.prefault({}),
  windows: z.array(windowSchema).default([]),
  /** Rules by which rows are set aside as said before. */
  duplicates: z.object({ samePayload: on, reopenedOrders: on }).prefault({}),
  /** Whether rows under a former id of a unit are the unit's. */
  formerIds: on,
  /** Rules by which ambiguous positions were settled once for all, by source. */
  positions: z.record(z.string(), z.unknown()).default({}),
  /** Changes written down, to be judged later; they alter nothing of the lives. */
  changes: z.array(changeRecordSchema).default([]),
});
export type Choices = z.infer<typeof choicesSchema>;

export const defaultChoices: Choices = choicesSchema.parse({});
