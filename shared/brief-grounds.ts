import { z } from 'zod';

const count = z.number().int().nonnegative();
const counted = z.array(z.object({ value: z.string(), lives: count }));

/** What the findings of a brief stand on, in counts. Null where the records do not stand behind the lives. */
export const briefGroundsSchema = z.object({
  name: z.string(),
  invented: z.boolean(),
  fingerprint: z.string(),
  observedFrom: z.string().nullable(),
  observedTo: z.string().nullable(),
  vehicles: count,
  lives: count,
  failures: count,
  miles: z.number().nonnegative(),
  /** How lives ended, most first: all but `failed` were cut off before a failure was seen. */
  states: counted,
  /** How the miles of lives are known. */
  mileage: counted,
  /** Lives that were running when watching began. */
  lateEntries: count,
  unknownStarts: count,
  /** Of the lives that failed: those with no clean check before the failure was found. */
  failuresUnchecked: count,
  /** Values of the columns that make up the scope, commonest first. */
  scope: z.record(z.string(), counted),
  firstInstalled: z.string().nullable(),
  lastInstalled: z.string().nullable(),
  procedures: z.array(z.object({ name: z.string(), version: z.string(), validFrom: z.string() })),
  tables: z
    .array(
      z.object({
        ...{ table: z.string(), read: count, kept: count, setAside: count },
        reasons: z.array(z.object({ reason: z.string(), rows: count })),
      }),
    )
    .nullable(),
  fields: z.array(z.object({ table: z.string(), column: z.string(), filled: count, rows: count })).nullable(),
  repairs: z.array(z.object({ rule: z.string(), rows: count })).nullable(),
  weaknesses: z.array(z.object({ weakness: z.string(), effect: z.string() })),
});
export type BriefGrounds = z.infer<typeof briefGroundsSchema>;
