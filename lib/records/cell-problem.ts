import type { RecordColumn } from '../../shared/record-tables.ts';
import { firstYear, lastYear } from './date-cell.ts';
import { partedBySpaces } from './list-cells.ts';
import { numberIn } from './number-cell.ts';

/** What a column takes, in words. */
export function acceptedIn(column: RecordColumn): string {
  const choices = column.choices?.join(', ') ?? '';
  switch (column.kind) {
    case 'text':
      return column.required ? 'any text but a blank' : 'any text';
    case 'choice':
      return `one of ${choices}`;
    case 'list': {
      const parted = partedBySpaces(column) ? '";" or spaces' : '";"';
      return choices === ''
        ? `words with ${parted} between them`
        : `words with ${parted} between them, each one of ${choices}`;
    }
    case 'date':
      return `a day written YYYY-MM-DD, from ${firstYear} to ${lastYear}; a time behind it is cut off`;
    case 'number':
    case 'integer':
      return `a ${column.kind === 'integer' ? 'whole number' : 'number'} from ${column.minimum} to ${column.maximum}, with a decimal point and no thousands separator`;
  }
}

/** Why a cell that was not accepted was not. */
export function problemOf(column: RecordColumn, text: string): string {
  if (text.trim() === '') return 'blank where a value is needed';
  if (text.includes('\0')) return 'a byte of zero inside the text';
  if (text.includes('\uFFFD')) return 'not readable as UTF-8 text';
  if (column.kind === 'choice') return 'not a word of this column';
  if (column.kind === 'date') return dateProblem(text.trim());
  if (column.kind === 'list') return 'holds a word that is none of this column, or no word at all';
  if (column.kind === 'text') return 'not readable as text';
  return numberProblem(column, text.trim());
}

function dateProblem(text: string): string {
  if (!/^\d{4}-\d{2}-\d{2}/.test(text)) return 'not a day written YYYY-MM-DD';
  const year = Number(text.slice(0, 4));
  if (year < firstYear || year > lastYear) return 'a year outside those that records can mean';
  return /^\d{4}-\d{2}-\d{2}$/.test(text)
    ? 'no day of the calendar'
    : 'no day of the calendar, or no time of day behind it';
}

function numberProblem(column: RecordColumn, text: string): string {
  const bytes = new TextEncoder().encode(text);
  const value = numberIn(bytes, 0, bytes.length);
  if (Number.isNaN(value)) return 'not a number';
  if (value < (column.minimum ?? -Infinity)) return 'less than the least that can be meant';
  if (value > (column.maximum ?? Infinity)) return 'more than the most that can be meant';
  return 'not a whole number';
}
