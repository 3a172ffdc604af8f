import { fedTables, type ColumnMap } from '../../../shared/column-map.ts';
import type { TableName } from '../../../shared/record-tables.ts';
import { readHeader } from '../header.ts';
import { choiceFor, mapFor, type Choices } from '../planned-files.ts';
import { readRecordSetFile } from '../record-set-file.ts';
import type { RecordSource } from '../record-source.ts';
import { sortedSources } from '../sorted-sources.ts';
import { unpackedSources } from '../unpacked-sources.ts';
import { canonicalMap } from './canonical-map.ts';
import { fittingMap } from './fitting-map.ts';
import { knownMaps } from './known-maps.ts';
import { makersOf } from './mapped-row.ts';
import { previewMap } from './preview-map.ts';
import type { Proposal } from './propose/proposal.ts';
import { proposeMap } from './propose/propose-map.ts';
import { sampleOf, sampleRow, type Sample } from './sample.ts';
import { mapsAmong } from './saved-maps.ts';
import { UnitRoles } from './unit-roles.ts';
import { unmappedFile, type UnmappedFile } from './unmapped-file.ts';

export interface UnmappedFiles {
  readonly files: readonly UnmappedFile[];
  /** Axles of the units in the files, where files are read by the maps given and else by what they are read by now. */
  readonly rolesBy: (maps: ReadonlyMap<string, ColumnMap>) => Promise<UnitRoles>;
}

export interface LookOptions {
  readonly maps?: readonly ColumnMap[];
  /** Sources whose maps are to be looked at again. */
  readonly again?: readonly string[];
  readonly choices?: Choices;
  readonly signal?: AbortSignal;
  readonly onFile?: (name: string) => void;
}

/** Of a canonical file this share may be set aside before its words count as somebody else's. */
const mostAside = 0.2;
/** Lists of vehicles are looked at whole, however long: places are read by them. */
const mostUnits = 500_000;

/** Finds the files that need a column map, and proposes one for each. @throws the signal's reason where aborted */
export async function unmappedFiles(
  sources: readonly RecordSource[],
  { maps = [], again = [], choices = {}, signal, onFile = () => undefined }: LookOptions = {},
): Promise<UnmappedFiles> {
  const saved = await mapsAmong((await unpackedSources(sources)).sources);
  const sorted = sortedSources(saved.sources);
  const { said } = await readRecordSetFile(sorted.recordSets);
  const known = knownMaps(maps, [...saved.maps, ...Object.values(said.columnMaps ?? {})]);
  const looking: Looking = { maps: known, again, choices, signal };
  const looked: Looked[] = [];
  for (const { source, table } of [...sorted.tables, ...sorted.unnamed.map((source) => ({ source, table: null }))]) {
    signal?.throwIfAborted();
    onFile(source.name);
    looked.push(await lookAt(source, table, looking));
  }
  const rolesBy = async (by: ReadonlyMap<string, ColumnMap>): Promise<UnitRoles> => {
    const roles = new UnitRoles();
    for (const one of looked)
      await addRoles({ ...one, map: by.get(one.source.name) ?? one.map ?? one.again }, roles, looking);
    return roles;
  };
  const none = new UnitRoles();
  // Axles are wanted only where some file is not ours as it stands.
  if (!looked.some((one) => needsMap(one, none))) return { files: [], rolesBy };
  const roles = await rolesBy(new Map());
  return { files: looked.flatMap((one) => unmapped(one, roles, looking)), rolesBy };
}

interface Looking {
  readonly maps: readonly ColumnMap[];
  readonly again: readonly string[];
  readonly choices: Choices;
  readonly signal: AbortSignal | undefined;
}

interface Looked {
  readonly source: RecordSource;
  readonly table: TableName | null;
  /** The map it is read by now: a saved one, or its own canonical headers. */
  readonly map: ColumnMap | null;
  /** The saved map that is looked at again. */
  readonly again: ColumnMap | null;
  readonly why: string | null;
  readonly sample: Sample | null;
}

async function lookAt(source: RecordSource, table: TableName | null, looking: Looking): Promise<Looked> {
  const { maps, choices, signal } = looking;
  const found = maps.length === 0 ? null : await mapFor(source, table, maps, choices, signal);
  const saved = typeof found === 'string' ? null : found;
  const again = saved !== null && looking.again.includes(saved.source) ? saved : null;
  if (saved !== null && again === null) return { source, table, map: saved, again, why: null, sample: null };
  const sample = await sampleOf(source, choiceFor(source, choices, again), undefined, signal);
  if (typeof sample === 'string') return { source, table, map: again, again: null, why: sample, sample: null };
  const canonical = again === null && table !== null && typeof readHeader(table, sample.headers) !== 'string';
  const map = canonical ? canonicalMap(table, sample.headers) : null;
  return { source, table, map, again, why: typeof found === 'string' ? found : null, sample };
}

/** Axles as the file says them now, or by what would be proposed for it. */
async function addRoles({ source, map, sample }: Looked, roles: UnitRoles, looking: Looking): Promise<void> {
  const used = map ?? (sample && proposeMap(source.name, sample.headers, sample.rows.slice(0, 500), roles).map);
  if (!used || !fedTables(used.feeds).includes('units')) return;
  const { choices, signal } = looking;
  const whole = sample?.whole ? sample : await sampleOf(source, choiceFor(source, choices, map), mostUnits, signal);
  if (typeof whole === 'string') return;
  const fitted = fittingMap([used], source.name, whole.headers);
  if (fitted === null || typeof fitted === 'string') return;
  const makers = makersOf('units', fitted.map, fitted.places, roles);
  const [unit, axles] = ['unit_id', 'axle_roles'].map((name) => makers.find(({ column }) => column.name === name));
  if (!unit || !axles) return;
  const cut = sampleRow();
  const decoder = new TextDecoder();
  for (const row of whole.rows) {
    cut.at(row);
    const [id, said] = [unit.make(cut), axles.make(cut)];
    if (id.fault === null && said.fault === null) roles.add(decoder.decode(id.bytes), decoder.decode(said.bytes));
  }
}

/** Rows of the sample that would be set aside by the headers as they stand; none where the file is not ours. */
function asideByOwnHeaders({ map, sample }: Looked, roles: UnitRoles): number | null {
  const preview = map && sample ? previewMap(map, sample, roles) : 'has not our headers';
  return typeof preview === 'string' ? null : preview.setAside;
}

function needsMap(one: Looked, roles: UnitRoles): boolean {
  if (one.sample === null || one.sample.rows.length === 0) return false;
  const aside = asideByOwnHeaders(one, roles);
  return aside === null || aside > mostAside * one.sample.rows.length;
}

function unmapped(one: Looked, roles: UnitRoles, { choices }: Looking): UnmappedFile[] {
  const { source, sample, why, again } = one;
  if (sample === null || !needsMap(one, roles)) return [];
  const where = choiceFor(source, choices, again);
  const file = unmappedFile({ source, sample, why, map: again, where, roles });
  const aside = asideByOwnHeaders(one, roles);
  return aside !== null && !isBetter(file.proposal, sample, roles, aside) ? [] : [file];
}

/** Whether a map of a file that has our headers already would keep more of its rows, or could once somebody says what it leaves open. */
function isBetter({ map, asks, columns }: Proposal, sample: Sample, roles: UnitRoles, aside: number): boolean {
  const open = asks.some(({ id }) => /^(date order|decimal|driver|combination|place )/.test(id));
  if (open || columns.some(({ unknownWords }) => unknownWords.length > 0)) return true;
  const preview = previewMap(map, sample, roles);
  return typeof preview !== 'string' && preview.setAside < aside;
}
