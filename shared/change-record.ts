import { z } from 'zod';
import { deviationCodes } from './deviations.ts';

const codes = deviationCodes as [string, ...string[]];

/** A change to how parts are fitted, written down before anybody knows what came of it. */
export const changeRecordSchema = z.object({
  name: z.string().trim().min(1).max(200),
  /** The first day on which parts were fitted the new way, and the shops that did so. */
  date: z.iso.date(),
  shops: z.array(z.string().min(1)).min(1).max(200),
  what: z.string().max(2_000).default(''),
  /** Version of the procedure that holds from then on. */
  procedure: z.string().max(200).nullable().default(null),
  /** Deviations that should get rarer; none = any recorded one. */
  deviations: z.array(z.enum(codes)).default([]),
  /** Failures after over those before, like for like, if it works as hoped. */
  expectedRatio: z.number().gt(0).lt(1),
  /** Failures of parts fitted after, and months since the change, before it is judged. */
  failuresNeeded: z.number().int().positive().max(1_000_000),
  monthsNeeded: z.number().int().positive().max(600),
  /** What will count as success, and what will end the trial, in the writer's words. */
  success: z.string().max(2_000).default(''),
  stop: z.string().max(2_000).default(''),
  writtenOn: z.iso.date(),
});
export type ChangeRecord = z.infer<typeof changeRecordSchema>;

/** A change record as a file: its fingerprint tells whether anything was altered since. */
export const changeFileSchema = changeRecordSchema.extend({ fingerprint: z.string().optional() });

const sorted = (texts: readonly string[]): string[] => [...texts].sort();

/** The content of a change record as one text: the same for the same content, whatever the order of its fields. */
export function canonicalChange(record: ChangeRecord): string {
  const whole: Record<string, unknown> = {
    ...changeRecordSchema.parse(record),
    shops: sorted(record.shops),
    deviations: sorted(record.deviations),
  };
  return JSON.stringify(
    Object.fromEntries(
      Object.keys(whole)
        .sort()
        .map((key) => [key, whole[key]]),
    ),
  );
}
