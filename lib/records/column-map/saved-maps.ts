import { z } from 'zod';
import { columnMapSchema, columnMapVersion, type ColumnMap } from '../../../shared/column-map.ts';
import { isRecordSetFile } from '../record-set-file.ts';
import { textOf, type RecordSource } from '../record-source.ts';

/** One map, several in a list, or those of a record set: `{ "columnMaps": { "north": … } }`. */
const savedSchema = z.union([
  columnMapSchema.transform((map) => [map]),
  z.array(columnMapSchema),
  z
    .object({ columnMaps: z.record(z.string(), columnMapSchema) })
    .transform(({ columnMaps }) => Object.values(columnMaps)),
]);

/**
 * Column maps out of JSON as it was saved.
 * @throws Error that says what is wrong, where, and which version is read here
 */
export function columnMapsOf(text: string): ColumnMap[] {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw new Error(`is no JSON (${error instanceof Error ? error.message : String(error)})`);
  }
  const newer = versionsOf(value).find((version) => version !== columnMapVersion);
  if (newer !== undefined)
    throw new Error(`is a column map of version ${String(newer)}; version ${columnMapVersion} is read here`);
  const parsed = savedSchema.safeParse(value);
  if (parsed.success) return parsed.data;
  const one = Array.isArray(value) || isRecord(value) ? problemsOf(value) : null;
  throw new Error(`is no column map (${one ?? 'it has to be one map, or a list of them'})`);
}

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;

function mapsIn(value: unknown): unknown[] {
  if (Array.isArray(value)) return value;
  if (!isRecord(value)) return [];
  return isRecord(value['columnMaps']) ? Object.values(value['columnMaps']) : [value];
}

const versionsOf = (value: unknown): unknown[] =>
  mapsIn(value).flatMap((map) => (isRecord(map) && 'version' in map ? [map['version']] : []));

function problemsOf(value: unknown): string | null {
  for (const map of mapsIn(value)) {
    const parsed = columnMapSchema.safeParse(map);
    if (parsed.success) continue;
    return parsed.error.issues
      .slice(0, 5)
      .map(({ path, message }) => `${path.join('.') || 'as a whole'}: ${message}`)
      .join('; ');
  }
  return null;
}

const largestMap = 2 ** 20;

export interface MapsFound {
  readonly maps: readonly ColumnMap[];
  /** All sources but those that are column maps. */
  readonly sources: readonly RecordSource[];
  readonly refused: readonly { readonly name: string; readonly why: string }[];
}

/** Takes the column maps out of the files of a record set: JSON that has a `recognised` part, as all of them have. */
export async function mapsAmong(sources: readonly RecordSource[]): Promise<MapsFound> {
  const found: { maps: ColumnMap[]; sources: RecordSource[]; refused: { name: string; why: string }[] } = {
    maps: [],
    sources: [],
    refused: [],
  };
  for (const source of sources) {
    const text = await mapText(source);
    if (text === null) {
      found.sources.push(source);
      continue;
    }
    try {
      found.maps.push(...columnMapsOf(text));
    } catch (error) {
      found.refused.push({ name: source.name, why: error instanceof Error ? error.message : String(error) });
    }
  }
  return found;
}

async function mapText(source: RecordSource): Promise<string | null> {
  if (isRecordSetFile(source)) return null;
  let text = '';
  const read = async () => (text = await textOf(source).catch(() => ''));
  return (await holdsColumnMap(source.name, source.size, read)) ? text : null;
}

/** Whether a file of that name is one of column maps, whether good or not. */
export async function holdsColumnMap(name: string, size: number, read: () => Promise<string>): Promise<boolean> {
  if (!/\.json$/i.test(name) || size > largestMap) return false;
  const text = await read();
  return /^\s*[[{]/.test(text) && text.includes('"recognised"');
}
