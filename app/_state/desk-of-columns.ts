import { fedTables, type ColumnMap, type Feeds } from '../../shared/column-map.ts';
import {
  headersKey,
  joinedSamples,
  placeAsks,
  previewMap,
  proposeMap,
  proposeSource,
  wordsInUse,
  type JoinedSample,
  type MapPreview,
  type Sample,
  type UnmappedFile,
  type UnmappedFiles,
} from '../../lib/records/index.ts';
import type { AskedSource, ColumnsDesk, RowExample, TriedMap } from './columns-desk.ts';

/** Rows up to which all are tried once the first ones were. */
const mostRows = 150_000;
const mostValues = 4;

type Work = <Value>(job: number, run: (signal: AbortSignal) => Promise<Value>) => Promise<Value>;

interface HeldSource {
  readonly files: readonly [UnmappedFile, ...UnmappedFile[]];
  readonly sample: JoinedSample;
  readonly asked: AskedSource;
  /** All rows, once they were read; null where they are too many. */
  all?: JoinedSample | null;
}

export interface ColumnsLook extends ColumnsDesk {
  /** Holds what was found, and says what has to be asked; nothing where no file looks like records. */
  hold(found: UnmappedFiles): readonly AskedSource[];
}

/** The worker's side of what proposes, tries and words column maps. */
export function deskOfColumns(work: Work): ColumnsLook {
  let held: readonly HeldSource[] = [];
  let found: UnmappedFiles = { files: [], rolesBy: () => Promise.reject(new Error('no files were looked at')) };
  /** How files that list units are read now. */
  const units = new Map<string, ColumnMap>();
  let roles: ReturnType<UnmappedFiles['rolesBy']> | null = null;

  const sourceOf = (number: number): HeldSource => {
    const source = held[number];
    if (!source) throw new Error(`no source ${number} is asked about`);
    return source;
  };
  const rolesNow = () => (roles ??= found.rolesBy(units));

  function know({ files }: HeldSource, map: ColumnMap): void {
    const lists = fedTables(map.feeds).includes('units');
    for (const { name } of files) {
      if (!lists && !units.has(name)) continue;
      if (JSON.stringify(units.get(name)) === JSON.stringify(map)) continue;
      units.set(name, map);
      roles = null;
    }
  }

  return {
    hold(files) {
      found = files;
      units.clear();
      roles = null;
      held = heldSources(files.files);
      return held.some(({ asked }) => asked.likely) ? held.map(({ asked }) => asked) : [];
    },
    proposeColumns: (job, number, feeds: Feeds) =>
      work(job, async () => {
        const { asked, sample } = sourceOf(number);
        return proposeMap(asked.files[0] ?? '', sample.headers, sample.rows, await rolesNow(), feeds);
      }),
    proposeColumn: (job, number, header, table, ours) =>
      work(job, () => Promise.resolve(proposeSource(sourceOf(number).sample, header, table, ours))),
    tryMap: (job, number, map, all) =>
      work(job, async (signal) => {
        const source = sourceOf(number);
        know(source, map);
        if (all && source.all === undefined) source.all = await allRows(source, signal);
        const sample = (all ? source.all : null) ?? source.sample;
        signal.throwIfAborted();
        return tried(map, sample, source, await rolesNow());
      }),
  };
}

function heldSources(files: readonly UnmappedFile[]): HeldSource[] {
  const grouped = new Map<string, [UnmappedFile, ...UnmappedFile[]]>();
  for (const file of files) {
    const key = `${file.map?.source ?? ''} ${headersKey(file.sample.headers)}`;
    const group = grouped.get(key);
    if (group) group.push(file);
    else grouped.set(key, [file]);
  }
  return [...grouped.values()].map((group, number) => {
    const [first, ...more] = group;
    const sample = joinedSamples([first.sample, ...more.map(({ sample }) => sample)]);
    return { files: group, sample, asked: askedOf(number, group, sample) };
  });
}

function askedOf(number: number, files: readonly [UnmappedFile, ...UnmappedFile[]], sample: JoinedSample): AskedSource {
  const [{ proposal, why, map }] = files;
  const headers = proposal.map.recognised.headers;
  return {
    ...{ number, files: files.map(({ name }) => name), why, headers, map, proposal },
    likely: files.some(({ likely }) => likely),
    values: headers.map((_, place) => valuesAt(sample, place)),
    rows: sample.rows.length,
    whole: sample.whole,
  };
}

function valuesAt({ rows }: Sample, place: number): string[] {
  const found = new Set<string>();
  for (const row of rows) {
    const text = (row[place] ?? '').trim();
    if (text !== '') found.add(text.slice(0, 60));
    if (found.size >= mostValues) break;
  }
  return [...found];
}

async function allRows({ files, sample }: HeldSource, signal: AbortSignal): Promise<JoinedSample | null> {
  if (sample.whole) return sample;
  const samples: Sample[] = [];
  let rows = 0;
  for (const file of files) {
    const whole = await file.rows(mostRows - rows, signal);
    if (typeof whole === 'string' || !whole.whole) return null;
    samples.push(whole);
    rows += whole.rows.length;
  }
  const [first, ...more] = samples;
  return first ? joinedSamples([first, ...more]) : null;
}

function tried(
  map: ColumnMap,
  sample: JoinedSample,
  { files, asked }: HeldSource,
  roles: Awaited<ReturnType<UnmappedFiles['rolesBy']>>,
): TriedMap {
  const preview = previewMap(map, sample, roles);
  return {
    preview,
    examples: typeof preview === 'string' ? {} : examplesOf(preview, sample, files),
    words: wordsInUse(map, sample),
    asks: placeAsks(map, asked.headers, sample.rows, roles),
    whole: sample.whole,
  };
}

function examplesOf(
  { columns, undecided }: MapPreview,
  { placeOf }: JoinedSample,
  files: HeldSource['files'],
): Record<number, RowExample> {
  const lines = [...columns.flatMap(({ reasons }) => reasons), ...undecided].map(({ line }) => line);
  return Object.fromEntries(
    lines.map((at) => {
      const { sample, line } = placeOf(at);
      return [at, { file: files[sample]?.name ?? '', line }];
    }),
  );
}
