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
import { makersOf } from './mapped-row.ts';
import { previewMap } from './preview-map.ts';
import type { Proposal } from './propose/proposal.ts';
import { proposeMap } from './propose/propose-map.ts';
import { sampleOf, sampleRow, type Sample } from './sample.ts';
import { mapsAmong } from './saved-maps.ts';
import { UnitRoles } from './unit-roles.ts';

/** A file that no map fits and whose headers, or the words under them, are not ours. */
export interface UnmappedFile {
  readonly name: string;
  /** Why a map that comes near does not fit, or why the file goes by none; null where it only needs one. */
  readonly why: string | null;
  readonly sample: Sample;
  readonly proposal: Proposal;
  /** Whether it looks like records at all: some column names units, and others something of ours. */
  readonly likely: boolean;
}

export interface UnmappedFiles {
  readonly files: readonly UnmappedFile[];
  /** Axles of the units in the files, as far as they can be read by now. */
  readonly roles: UnitRoles;
}

export interface LookOptions {
  readonly maps?: readonly ColumnMap[];
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
  { maps = [], choices = {}, signal, onFile = () => undefined }: LookOptions = {},
): Promise<UnmappedFiles> {
  const saved = await mapsAmong((await unpackedSources(sources)).sources);
  const sorted = sortedSources(saved.sources);
  const { said } = await readRecordSetFile(sorted.recordSets);
  const known = [...maps, ...saved.maps, ...Object.values(said.columnMaps ?? {})];
  const looked: Looked[] = [];
  for (const { source, table } of [...sorted.tables, ...sorted.unnamed.map((source) => ({ source, table: null }))]) {
    signal?.throwIfAborted();
    onFile(source.name);
    looked.push(await lookAt(source, table, known, choices, signal));
  }
  const roles = new UnitRoles();
  for (const one of looked) await addRoles(one, roles, choices, signal);
  return { files: looked.flatMap((one) => unmapped(one, roles)), roles };
}

interface Looked {
  readonly source: RecordSource;
  readonly table: TableName | null;
  /** The map it is read by now: a saved one, or its own canonical headers. */
  readonly map: ColumnMap | null;
  readonly why: string | null;
  readonly sample: Sample | null;
}

async function lookAt(
  source: RecordSource,
  table: TableName | null,
  maps: readonly ColumnMap[],
  choices: Choices,
  signal: AbortSignal | undefined,
): Promise<Looked> {
  const found = maps.length === 0 ? null : await mapFor(source, table, maps, choices, signal);
  if (found !== null && typeof found !== 'string') return { source, table, map: found, why: null, sample: null };
  const sample = await sampleOf(source, choiceFor(source, choices), undefined, signal);
  if (typeof sample === 'string') return { source, table, map: null, why: sample, sample: null };
  const canonical = table !== null && typeof readHeader(table, sample.headers) !== 'string';
  const map = canonical ? canonicalMap(table, sample.headers) : null;
  return { source, table, map, why: found, sample };
}

/** Axles as the file says them now, or by what would be proposed for it. */
async function addRoles(
  { source, map, sample }: Looked,
  roles: UnitRoles,
  choices: Choices,
  signal?: AbortSignal,
): Promise<void> {
  const used = map ?? (sample && proposeMap(source.name, sample.headers, sample.rows.slice(0, 500), roles).map);
  if (!used || !fedTables(used.feeds).includes('units')) return;
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

function unmapped({ source, map, why, sample }: Looked, roles: UnitRoles): UnmappedFile[] {
  if (sample === null || sample.rows.length === 0) return [];
  if (map !== null) {
    const preview = previewMap(map, sample, roles);
    const canonical = typeof preview !== 'string' && preview.setAside <= mostAside * preview.rows;
    if (canonical) return [];
  }
  const proposal = proposeMap(source.name, sample.headers, sample.rows, roles);
  const found = proposal.columns.filter(
    ({ confidence, ours }) => confidence > 0.5 && !/^(service|failure|inspection)_id$/.test(ours),
  );
  const likely = found.length >= 2 && found.some(({ ours }) => ours === 'unit_id');
  return [{ name: source.name, why, sample, proposal, likely }];
}
