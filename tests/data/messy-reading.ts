import type { MessyFleet } from '../../data/demo/messy/messy-fleet.ts';
import { mustOf, type Mess, type MessCode, type Must, type Paper } from '../../data/demo/messy/mess.ts';
import type { TableName } from '../../shared/record-tables.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import type { RecordSource } from '../../lib/records/index.ts';
import { source } from '../records/sources.ts';

/** A row of a messy file, with what must become of it. */
export interface TrueRow {
  /** By the name that the reader's account has, and the row as the file counts them. */
  readonly place: string;
  readonly table: TableName | null;
  readonly must: Must;
  readonly messes: readonly Mess[];
  readonly paper: Paper<Record<string, string | number | null>>;
}

export const placeOf = (file: string, row: number): string => `${file}:${row}`;

/** The files as somebody would drop them, those of the truth left out. */
export function messySources({ exports, documents }: MessyFleet): RecordSource[] {
  return [
    ...exports.map(({ name, bytes }) => source(name, bytes)),
    ...documents.flatMap(({ name, text }) => (name.endsWith('.json') ? [source(name, text)] : [])),
  ];
}

/** A sheet is named with its workbook where that has several. */
const accountName = (file: string, sheet: string, sheets: number): string =>
  sheet === '' || sheets < 2 ? file : `${file}/${sheet}`;

export function trueRows({ exports }: MessyFleet): TrueRow[] {
  return exports.flatMap(({ lists }) =>
    lists.flatMap(({ file, sheet, papers, lines }) =>
      papers.map((paper, at) => ({
        place: placeOf(accountName(file, sheet, lists.length), lines[at]!),
        table: paper.table,
        must: mustOf(paper),
        messes: paper.messes,
        paper: paper as TrueRow['paper'],
      })),
    ),
  );
}

export const nameOf = (report: ReadReport, fileId: unknown): string => report.files[Number(fileId)]?.name ?? '';

/** What the reader says of a row that is set aside for each reason. */
export const reasonsFor: Partial<Readonly<Record<MessCode, RegExp>>> = {
  'position-blank': /^blank where a value is needed$/,
  'side-missing': /^is ambiguous: it does not say which side$/,
  'axle-unclear': /^is ambiguous: it could be axle/,
  'side-unclear': /^is ambiguous: it does not say which side$/,
  'remove-and-replace': /^names no axle$/,
  'no-such-axle': /^names an axle that a unit with the axles .* does not have$/,
  'unit-not-listed': /the unit is not in the units table$/,
  'date-blank': /^blank where a value is needed$/,
  'no-such-day': /^no day of the calendar/,
  'word-not-known': /^not a word of this column$|^holds a word that is none of this column/,
  'miles-unreadable': /^not a number as this source writes them$/,
  'miles-below-zero': /^less than the least that can be meant$/,
  'cells-too-many': /^has \d+ cells for \d+ headers$/,
  'quote-not-closed': /quote/,
  'said-twice': /^says the same as .*, under another id$/,
  'same-id-again': /^the id is already used by /,
  'order-reopened': /^an order opened again: /,
  'other-work': /^passed over, as the column map says/,
  'kind-not-known': /^does not say which table the row feeds$/,
  // A line of headers or a total is no record, whichever of its cells shows it first.
  'header-again': /./,
  total: /./,
};

/** Rules by which miles may be put right or filled in, for each mess of them. */
export const rulesFor: Partial<Readonly<Record<MessCode, readonly string[]>>> = {
  'meter-reset': ['reset'],
  'meter-changed': ['unwritten-reset'],
  'digit-too-many': ['digit-slip'],
  'kilometres-as-miles': ['kilometres'],
  'rolled-back': ['runs-backward'],
  'miles-blank': ['interpolated', 'extrapolated'],
  'no-odometer': ['like-units'],
};
