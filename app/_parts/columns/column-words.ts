import {
  fedTables,
  mappableColumns,
  neededColumns,
  positionColumn,
  type ColumnMap,
} from '../../../shared/column-map.ts';
import { columnSays } from '../../../shared/column-says.ts';
import type { TableName } from '../../../shared/record-tables.ts';
import type { SourceChoice } from '../../../shared/source-choice.ts';
import type { SourceLook } from '../../_state/columns-desk.ts';
import type { ColumnUse } from '../../_state/columns/edit-columns.ts';
import { openOf, type Draft } from '../../_state/columns/draft.ts';

const whole = (value: number): string => value.toLocaleString('en-US');
export const counted = (value: number, one: string, many = `${one}s`): string =>
  `${whole(value)} ${value === 1 ? one : many}`;

/** A column of ours as it is spoken of. */
export const oursSays = (ours: string): string =>
  ours === positionColumn ? 'place (axle and side)' : columnSays(ours);

export const tableSays: Readonly<Record<TableName, string>> = {
  units: 'units (one row a vehicle)',
  readings: 'readings (of odometers)',
  services: 'services (work done)',
  inspections: 'inspections (looks at wheel ends)',
  failures: 'failures',
};

export interface OursChoice {
  readonly value: string;
  readonly label: string;
  readonly use: ColumnUse;
}

export const valueOf = ({ ours, as }: Pick<ColumnUse, 'ours' | 'as'>): string =>
  as === 'cells' ? ours : `${ours} ${as}`;

/** What a column of theirs can be read for, in the order of our tables. */
export function oursChoices(map: ColumnMap): OursChoice[] {
  const fed = fedTables(map.feeds);
  const names = [...new Set(fed.flatMap(mappableColumns))];
  return names.flatMap((ours) => {
    const tables = fed.filter((table) => mappableColumns(table).includes(ours));
    const needed = tables.some((table) => neededColumns(table).includes(ours));
    const only = tables.length < fed.length ? ` (${tables.join(', ')})` : '';
    const one = (as: ColumnUse['as'], says: string): OursChoice => {
      const use = { ours, as, tables };
      return { value: valueOf(use), label: `${says}${only}${needed ? ' *' : ''}`, use };
    };
    return ours === positionColumn
      ? [one('cells', oursSays(ours)), one('side', 'side of the place only')]
      : [one('cells', oursSays(ours))];
  });
}

export const dateOrderSays = { mdy: 'month, day, year', dmy: 'day, month, year', ymd: 'year, month, day' } as const;

type SheetLook = SourceLook['sheets'][number];

/** A sheet among others: its name and how many rows it has. */
export function sheetSays({ name, rowCount, more, likely }: SheetLook): string {
  const rows = rowCount === null ? '' : `: ${counted(rowCount, 'row')}${more ? ' or more' : ''}`;
  return `${name}${rows}${likely ? '' : ', hardly records'}`;
}

/** Where the rows of a file stand. */
export function placeSays({ name, headerRow: found }: SheetLook, { headerRow }: SourceChoice): string {
  const row = headerRow ?? found;
  const headers =
    row === null ? 'no row of headers found' : `headers in row ${row}${headerRow === undefined ? ', as found' : ''}`;
  return name === '' ? headers : `sheet ${name}, ${headers}`;
}

/** A source in the list, in few words: what it waits for, or how it does. */
export function draftSays(draft: Draft): string {
  if (draft.left) return 'left unread';
  const open = openOf(draft);
  if (open !== null) return open;
  const { tried } = draft;
  if (tried === null || typeof tried.preview === 'string') return 'being tried';
  const { rows, setAside } = tried.preview;
  return setAside === 0 ? `all of ${whole(rows)} rows kept` : `${whole(setAside)} of ${whole(rows)} rows set aside`;
}

/** The sentence that says where all sources stand. */
export function waitingAnswer(drafts: readonly Draft[]): { readonly head: string; readonly rest: string } {
  const taken = drafts.filter(({ left }) => !left);
  const files = taken.reduce((sum, { source }) => sum + source.files.length, 0);
  const open = taken.filter((draft) => openOf(draft) !== null).length;
  const previews = taken.flatMap(({ tried }) => (tried && typeof tried.preview !== 'string' ? [tried.preview] : []));
  const rows = previews.reduce((sum, preview) => sum + preview.rows, 0);
  const aside = previews.reduce((sum, preview) => sum + preview.setAside, 0);
  const sets = `${counted(files, 'file')} ${files === 1 ? 'is' : 'are'} not in our layout.`;
  const asks =
    open === 0
      ? 'Nothing is left open; look over what was proposed, then confirm.'
      : `${open === 1 ? 'One source has' : `${open} sources have`} questions that only you can answer.`;
  const tried = rows === 0 ? '' : ` Of ${whole(rows)} rows tried so far, ${whole(rows - aside)} would be kept.`;
  return { head: sets, rest: ` ${asks}${tried}` };
}
