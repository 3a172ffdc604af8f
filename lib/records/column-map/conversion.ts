import type { ColumnMap, ColumnPart, ColumnSource } from '../../../shared/column-map.ts';
import type { RecordColumn } from '../../../shared/record-tables.ts';
import { acceptedIn } from '../cell-problem.ts';
import { partedBySpaces } from '../list-cells.ts';
import { blanksOf, wordChange, type WordChange } from './cell-words.ts';
import { quantityOf } from './column-quantity.ts';
import { readDate } from './date-text.ts';
import { readNumber, unitNamed } from './number-text.ts';

/** What a cell of ours is made of: its text, blank = not known; or why there is none. */
export type Converted = { readonly text: string } | { readonly fault: string };

/** How the cells of one row become one cell of ours. */
export interface Conversion {
  /** Headers read, in the order in which `convert` takes their texts. */
  readonly headers: readonly string[];
  /** Trimmed texts of those cells. */
  convert(texts: readonly string[]): Converted;
  /** Whether few texts come again and again, so that what becomes of them is worth remembering. */
  readonly repeats: boolean;
  /** Whether the cell may go through as it stands. */
  readonly unchanged: boolean;
  /** What would be accepted, in words. */
  readonly accepted: string;
}

const blank: Converted = { text: '' };

/** One cell of the file with its words changed, blank where it means not known. */
export interface PartReader {
  readonly header: string;
  read(text: string): string;
}

export function partReader({ header, words }: ColumnPart, blanks: (text: string) => boolean): PartReader {
  const change = wordChange(words);
  return { header, read: (text) => (text === '' ? '' : (change(text) ?? (blanks(text) ? '' : text))) };
}

/** The conversion of a column that comes from columns of the file, its day, number, word or list put in our form. */
export function conversionOf(source: ColumnSource, column: RecordColumn, map: ColumnMap): Conversion {
  const blanks = blanksOf(map.blanks);
  const parts = (source.from ?? []).map((part) =>
    column.kind === 'list' ? listReader(part, source, column, blanks) : partReader(part, blanks),
  );
  const unit = source.unitFrom ? partReader(source.unitFrom, blanks) : null;
  const headers = [...parts.map(({ header }) => header), ...(unit ? [unit.header] : [])];
  const form = formOf(source, column, map);
  const joined = joinOf(source);
  const words = source.from?.some((part) => part.words !== undefined) ?? false;
  return {
    headers,
    repeats: column.kind !== 'text' && column.kind !== 'number',
    unchanged: column.kind === 'text' && headers.length === 1 && !words && !map.blanks?.length && !changesId(source),
    accepted: acceptedFrom(source, column, map),
    convert(texts) {
      const read = parts.map((part, index) => part.read(texts[index]!));
      const text = joined(read);
      if (text === '') return blank;
      const own = unit ? unit.read(texts[parts.length]!) : '';
      const made = form(text, own);
      return typeof made === 'string' ? { text: made } : made;
    },
  };
}

function joinOf({ joined }: ColumnSource): (texts: readonly string[]) => string {
  if (joined === 'first-filled') return (texts) => texts.find((text) => text !== '') ?? '';
  const mark = { space: ' ', dash: '-', list: ';' }[joined ?? 'space'];
  return (texts) => texts.filter((text) => text !== '').join(mark);
}

const changesId = ({ drop, padTo }: ColumnSource): boolean => drop !== undefined || padTo !== undefined;

type Form = (text: string, unit: string) => string | { readonly fault: string };

function formOf(source: ColumnSource, column: RecordColumn, map: ColumnMap): Form {
  switch (column.kind) {
    case 'date':
      return (text) => {
        const read = readDate(text, map.dates);
        return typeof read === 'string' ? { fault: read } : read.day;
      };
    case 'number':
    case 'integer':
      return numberForm(source, column, map);
    case 'list':
    case 'choice':
      return (text) => text;
    case 'text':
      return changesId(source) ? (text) => idOf(text, source) : (text) => text;
  }
}

function numberForm(source: ColumnSource, column: RecordColumn, map: ColumnMap): Form {
  const quantity = quantityOf(column);
  const settings = { decimal: map.numbers.decimal, quantity, unit: source.unit };
  return (text, own) => {
    const unit = own === '' ? source.unit : unitNamed(own);
    if (unit === undefined && own !== '') return { fault: `has the unit "${own}", which is none of this column` };
    const value = readNumber(text, { ...settings, unit });
    return typeof value === 'string' ? { fault: value } : String(value);
  };
}

/** A cell that no word stands for as a whole is changed word by word; one that means nothing leaves the list. */
function listReader(
  { header, words }: ColumnPart,
  { partedBy = '' }: ColumnSource,
  column: RecordColumn,
  blanks: (text: string) => boolean,
): PartReader {
  const marks = new Set([';', ...partedBy.split(''), ...(partedBySpaces(column) ? [' '] : [])]);
  const change = wordChange(words);
  return {
    header,
    read: (text) => change(text) ?? (blanks(text) ? '' : changedWords(text, marks, change)),
  };
}

function changedWords(text: string, marks: ReadonlySet<string>, change: WordChange): string {
  const changed: string[] = [];
  let from = 0;
  for (let at = 0; at <= text.length; at++) {
    if (at < text.length && !marks.has(text[at]!)) continue;
    const word = text.slice(from, at).trim();
    from = at + 1;
    const meant = word === '' ? '' : (change(word) ?? word);
    if (meant !== '') changed.push(meant);
  }
  return changed.join(';');
}

function idOf(text: string, { drop = '', padTo = 0 }: ColumnSource): string {
  const rest = drop !== '' && text.toLowerCase().startsWith(drop.toLowerCase()) ? text.slice(drop.length).trim() : text;
  return /^\d+$/.test(rest) ? rest.padStart(padTo, '0') : rest;
}

const orderWords = { ymd: 'year, month, day', dmy: 'day, month, year', mdy: 'month, day, year' } as const;

/** What the file's own cells may hold, in words. */
function acceptedFrom(source: ColumnSource, column: RecordColumn, map: ColumnMap): string {
  const words = Object.keys(Object.assign({}, ...(source.from ?? []).map(({ words }) => words)) as object);
  const own = words.length > 0 ? `${words.slice(0, 20).join(', ')}${words.length > 20 ? ' …' : ''}` : '';
  if (column.kind === 'date') {
    const order = map.dates.order ? `in the order ${orderWords[map.dates.order]}, or ` : '';
    return `a day ${order}with its year first or its month by name`;
  }
  if (column.kind === 'number' || column.kind === 'integer') {
    const unit = source.unit ? ` in ${source.unit}` : '';
    const range = `between ${column.minimum} and ${column.maximum}${unit === '' ? '' : ' once converted'}`;
    return `a ${column.kind === 'integer' ? 'whole number' : 'number'}${unit} with a decimal ${map.numbers.decimal}, ${range}`;
  }
  return own === '' ? acceptedIn(column) : `${own} by the column map; or ${acceptedIn(column)}`;
}
