import { z } from 'zod';
import { briefPlanSchema } from './brief.ts';
import { recordSetSchema } from './record-set.ts';
import { viewSchema } from './view.ts';

export const settingsVersion = 1;

/**
 * Everything that makes a view of the same records the same elsewhere. It is a `record-set.json` with
 * more in it: put beside a folder's tables under that name, its procedures, choices and column maps hold.
 */
export const settingsFileSchema = recordSetSchema.extend({
  settings: z.literal(settingsVersion),
  /** The page it was taken from, as its path below the app's own. */
  page: z
    .string()
    .regex(/^\/(?:[a-z-]+\/)*$/, 'a page’s path')
    .default('/'),
  view: viewSchema,
  units: z.enum(['us', 'metric']).default('us'),
  /** The records it was made from, by themselves and with the settings; a view of others may show other numbers. */
  madeFrom: z.object({ name: z.string(), records: z.string(), fingerprint: z.string() }),
  /** What a brief asks and says. */
  brief: briefPlanSchema.optional(),
});
export type SettingsFile = z.infer<typeof settingsFileSchema>;

/** @throws Error that says what is wrong and where */
export function settingsIn(text: string): SettingsFile {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw new Error(`is no JSON (${error instanceof Error ? error.message : String(error)})`);
  }
  const parsed = settingsFileSchema.safeParse(value);
  if (parsed.success) return parsed.data;
  const problems = parsed.error.issues
    .slice(0, 5)
    .map(({ path, message }) => `${path.join('.') || 'as a whole'}: ${message}`)
    .join('; ');
  throw new Error(`is no settings file (${problems})`);
}

export const settingsText = (settings: SettingsFile): string => `${JSON.stringify(settings, null, 1)}\n`;

/** Enough of a fingerprint to tell two record sets apart by eye and in a link. */
export const shortPrint = (fingerprint: string): string => fingerprint.slice(0, 12);
