import { fedTables, type ColumnMap, type Feeds } from '../../shared/column-map.ts';
import type { SourceChoice } from '../../shared/source-choice.ts';
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
  let held: HeldSource[] = [];
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
    lookAtPlaces: (job, number) => work(job, (signal) => sourceOf(number).files[0].look(signal)),
    takePlace: (job, number, where) =>
      work(job, async (signal) => {
        const { files } = sourceOf(number);
        const moved = await movedFiles(files, where, signal);
        if (typeof moved === 'string') return moved;
        const taken = (held[number] = heldSource(number, moved.taken));
        const [first, ...more] = moved.behind;
        if (first === undefined) return { taken: taken.asked, behind: null };
        const behind = heldSource(held.length, [first, ...more]);
        held.push(behind);
        return { taken: taken.asked, behind: behind.asked };
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
  return [...grouped.values()].map((group, number) => heldSource(number, group));
}

function heldSource(number: number, files: HeldSource['files']): HeldSource {
  const [first, ...more] = files;
  const sample = joinedSamples([first.sample, ...more.map(({ sample }) => sample)]);
  return { files, sample, asked: askedOf(number, files, sample) };
}

/** The files as far as they have the headers of the first in another place, and the others as they were. */
async function movedFiles(
  [first, ...more]: HeldSource['files'],
  where: SourceChoice,
  signal: AbortSignal,
): Promise<{ taken: HeldSource['files']; behind: UnmappedFile[] } | string> {
  const moved = await first.at(where, signal);
  if (typeof moved === 'string') return moved;
  const taken: [UnmappedFile, ...UnmappedFile[]] = [moved];
  const behind: UnmappedFile[] = [];
  for (const file of more) {
    const there = await file.at(where, signal);
    const agrees = typeof there !== 'string' && headersKey(there.sample.headers) === headersKey(moved.sample.headers);
    if (agrees) taken.push(there);
    else behind.push(file);
  }
  return { taken, behind };
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
