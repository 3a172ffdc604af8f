import { z } from 'zod';
import { columnMapSchema } from '../../../shared/column-map.ts';

const keptMapsVersion = 1;

const keptMapSchema = z.object({ map: columnMapSchema, savedOn: z.iso.datetime() });
/** A column map and when it was confirmed. */
export type KeptMap = z.infer<typeof keptMapSchema>;

const keptMapsSchema = z.object({ version: z.literal(keptMapsVersion), maps: z.array(keptMapSchema) });

export const keptMapsText = (maps: readonly KeptMap[]): string => JSON.stringify({ version: keptMapsVersion, maps });

/** Column maps as they were kept, or why they cannot be used. */
export function readKeptMaps(text: string): KeptMap[] | string {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return 'are damaged';
  }
  const { data: versioned } = z.looseObject({ version: z.number() }).safeParse(value);
  if (versioned && versioned.version !== keptMapsVersion)
    return `were written by version ${versioned.version} of this store, and this one reads version ${keptMapsVersion}`;
  const parsed = keptMapsSchema.safeParse(value);
  return parsed.success ? parsed.data.maps : 'are damaged';
}

/** Maps with others in the place of those of the same source, in the order of their names. */
export function withMaps(kept: readonly KeptMap[], saved: readonly KeptMap[]): KeptMap[] {
  const sources = new Set(saved.map(({ map }) => map.source));
  return [...kept.filter(({ map }) => !sources.has(map.source)), ...saved].sort((a, b) =>
    a.map.source.localeCompare(b.map.source),
  );
}
