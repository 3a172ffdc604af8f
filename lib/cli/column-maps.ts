import { readFileSync, writeFileSync } from 'node:fs';
import type { ColumnMap, ColumnSource } from '../../shared/column-map.ts';
import { columnMapsOf, unmappedFiles, type RecordSource, type UnmappedFile } from '../records/index.ts';
import { NothingUsable, WrongCall, type Streams } from './call.ts';
import { textTable } from './text-table.ts';
import { percentSign } from '../../shared/percent-sign.ts';

/** The option that every command with records takes. */
export const mapOption = { map: { type: 'string', multiple: true } } as const;

/** Column maps out of the files named; a file may hold one, several, or those of a record set. */
export function columnMaps(paths: readonly string[] = []): ColumnMap[] {
  return paths.flatMap((path) => {
    let text: string;
    try {
      text = readFileSync(path, 'utf8');
    } catch {
      throw new WrongCall(`no such file; --map takes a column map in JSON; ${path}`);
    }
    try {
      return columnMapsOf(text);
    } catch (error) {
      throw new WrongCall(`${path} ${error instanceof Error ? error.message : String(error)}`);
    }
  });
}

const theirs = ({ from = [], fixed, made }: ColumnSource): string => {
  if (fixed !== undefined) return `always "${fixed}"`;
  return made !== undefined ? 'made of the whole row' : from.map(({ header }) => header).join(' + ');
};

/** What is proposed for a file, a line for each of our columns, then what is open. */
function proposalText({ name, why, proposal, sample }: UnmappedFile): string {
  const rows = Object.entries(proposal.map.tables).flatMap(([table, sources]) =>
    sources.map((source) => {
      const column = proposal.columns.find((one) => one.table === table && one.ours === source.ours);
      const sure = column ? `${Math.round(column.confidence * 100)}${percentSign}` : '';
      return [`${table}.${source.ours}`, theirs(source), source.unit ?? '', sure];
    }),
  );
  const unknown = proposal.columns.flatMap(({ ours, unknownWords }) =>
    unknownWords
      .slice(0, 10)
      .map(
        ([word, count]) => `  word not known for ${ours}: ${word} (${count} rows of the first ${sample.rows.length})`,
      ),
  );
  const asks = proposal.asks.map(
    ({ question, options }) =>
      `  to be said: ${[question, ...options.map(({ label, set }) => `\n    ${label}${changes(set)}`)].join('')}`,
  );
  return [
    `${name}${why === null ? '' : `: ${why}`}`,
    textTable(['ours', 'theirs', 'unit', 'sure'], rows),
    ...unknown,
    ...asks,
    '',
  ].join('\n');
}

/** Where in the map an answer goes. */
const changes = (set: readonly { path: readonly (string | number)[]; value?: unknown }[]): string =>
  set.length === 0
    ? ''
    : ` → ${set.map(({ path, value }) => `${path.join('.')} = ${JSON.stringify(value)}`).join(', ')}`;

/** Writes a map for every file that needs one, to be looked over, edited and given back with `--map`. */
export async function proposeMaps(
  sources: readonly RecordSource[],
  maps: readonly ColumnMap[],
  path: string,
  { out }: Streams,
): Promise<void> {
  const found = (await unmappedFiles(sources, { maps })).files.filter(({ likely }) => likely);
  if (found.length === 0)
    throw new NothingUsable(
      'no file needs a column map; those that are read have our headers or a map that fits; files without: 0',
    );
  const proposed = found.map(({ proposal }) => proposal.map);
  writeFileSync(path, `${JSON.stringify(proposed.length === 1 ? proposed[0] : proposed, null, 2)}\n`);
  for (const file of found) out(proposalText(file));
}
