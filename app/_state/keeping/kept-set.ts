import { z } from 'zod';
import { choicesSchema } from '../../../shared/choices.ts';
import { columnMapSchema } from '../../../shared/column-map.ts';
import { procedureSchema } from '../../../shared/procedure.ts';

/** Raised whenever what is kept changes its form; an older form is turned into the newer by `migrations`. */
export const keptVersion = 2;

/** What is kept of a record set, beside the files themselves. */
export const keptSetSchema = z.object({
  version: z.literal(keptVersion),
  /** Folder that holds the files; the one of a reading in the making is named by nobody. */
  folder: z.string().min(1),
  name: z.string(),
  keptOn: z.iso.datetime(),
  files: z.array(z.object({ name: z.string(), stored: z.string(), packed: z.boolean(), bytes: z.number() })).min(1),
  /** In place of what the files themselves say. */
  settings: z.object({ procedures: z.array(procedureSchema).readonly(), choices: choicesSchema }),
  /** The column maps that the files are read by. */
  maps: z.array(columnMapSchema).readonly(),
});
export type KeptSet = z.infer<typeof keptSetSchema>;

/** From the form of the version named to that of the next one. */
const migrations: Readonly<Record<number, (kept: Record<string, unknown>) => Record<string, unknown>>> = {
  1: (kept) => ({ ...kept, maps: [] }),
};

/** What was kept, or why it cannot be used. */
export function readKept(text: string): KeptSet | string {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return 'what was kept is damaged';
  }
  const versioned = z.looseObject({ version: z.number() }).safeParse(value);
  if (!versioned.success) return 'what was kept does not say which version wrote it';
  let kept: Record<string, unknown> & { version: number } = versioned.data;
  for (let migrate = migrations[kept.version]; migrate !== undefined; migrate = migrations[kept.version])
    kept = { ...migrate(kept), version: kept.version + 1 };
  if (kept.version !== keptVersion)
    return `what was kept was written by version ${kept.version} of this store, and this one reads version ${keptVersion}`;
  const parsed = keptSetSchema.safeParse(kept);
  return parsed.success ? parsed.data : 'what was kept is damaged';
}
