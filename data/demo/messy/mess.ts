import type { TableName } from '../../../shared/record-tables.ts';

/** What must become of a row that a mess was made of. */
export type Must = 'kept' | 'repaired' | 'set-aside';

/** What lives lose by it at most: nothing, exact miles of the unit, or all that the row says of its axle. */
export type Loss = 'nothing' | 'miles' | 'row';

interface MessKind {
  readonly must: Must;
  readonly loss: Loss;
  readonly says: string;
}

const kept = (says: string): MessKind => ({ must: 'kept', loss: 'nothing', says });
const repaired = (loss: Loss, says: string): MessKind => ({ must: 'repaired', loss, says });
const aside = (loss: Loss, says: string): MessKind => ({ must: 'set-aside', loss, says });

/** Every mess that is made, by the code that the truth file bears. */
export const messKinds = {
  'remark-with-traps': kept('a remark with quotes, a line end or the letters of a position in it, which says nothing'),
  'unit-in-cell': kept('the number has a unit of its own beside it, which goes before that of the column'),
  'links-to-reopened': kept('its repair is named by the line that an order opened again had'),
  'handed-on': kept('the unit is listed once by each shop that had it, and is one vehicle'),
  'former-number': repaired('nothing', 'filed under the number that the unit bore until it was renumbered'),
  'meter-reset': repaired('nothing', 'miles of a meter that took the place of the old one, as a reading says'),
  'meter-changed': repaired('miles', 'miles of a meter that took the place of the old one, and no reading says so'),
  'digit-too-many': repaired('miles', 'miles typed with a zero too many'),
  'kilometres-as-miles': repaired('miles', 'kilometres written where miles belong'),
  'rolled-back': repaired('miles', 'a reading below the one before it'),
  'miles-blank': repaired('nothing', 'no miles written'),
  'no-odometer': repaired('miles', 'a trailer without a hub odometer'),
  'cell-not-known': repaired('nothing', 'a word that says nothing in a column that may be left blank'),
  'position-blank': aside('row', 'no position written'),
  'side-missing': aside('row', 'the position says no side'),
  'axle-unclear': aside('row', 'the position fits two axles of the unit'),
  'side-unclear': aside('row', 'R/S is road side or right side'),
  'remove-and-replace': aside('row', 'R&R, remove and replace, where the position belongs'),
  'no-such-axle': aside('row', 'an axle that the unit does not have'),
  'unit-not-listed': aside('row', 'a unit that the fleet list does not have, its axle named by its role'),
  'date-blank': aside('row', 'no day written'),
  'no-such-day': aside('row', 'a day that the calendar does not have'),
  'word-not-known': aside('row', 'a word that the column cannot mean'),
  'miles-unreadable': aside('row', 'words where miles belong'),
  'miles-below-zero': aside('row', 'miles below zero'),
  'cells-too-many': aside('row', 'a cell more than there are headers: an unquoted delimiter'),
  'quote-not-closed': aside('row', 'a quote that is opened and not closed'),
  'said-twice': aside('nothing', 'the same row under another id'),
  'same-id-again': aside('nothing', 'a row exported twice'),
  'order-reopened': aside('nothing', 'an order opened again, under new line ids and the day it was closed for good'),
  'other-work': aside('nothing', 'work that is none of a wheel end, in the same list'),
  'kind-not-known': aside('row', 'a kind of line that nobody said what it is'),
  'header-again': aside('nothing', 'the headers once more, at the top of a printed page'),
  total: aside('nothing', 'a line that adds up'),
} as const satisfies Readonly<Record<string, MessKind>>;
export type MessCode = keyof typeof messKinds;

export const kindOf = (code: MessCode): MessKind => messKinds[code];

/** One mess in one row. */
export interface Mess {
  readonly code: MessCode;
  /** Our column that it is about. */
  readonly column: string;
  readonly written: string;
  readonly meant: string;
}

/** A row on its way into a shop's list. */
export interface Paper<Row> {
  /** Null for lines that are no record. */
  readonly table: TableName | null;
  /** As it truly is; null where there is no such record. */
  readonly tidy: Row | null;
  /** As its shop has it, still in our own words. */
  row: Row;
  readonly messes: Mess[];
  /** Cells by header that stand otherwise in the file than the row says. */
  written: Readonly<Record<string, string>>;
  /** Text behind the last cell of its line. */
  readonly behind?: string;
}

export const paperOf = <Row>(table: TableName, row: Row): Paper<Row> => ({
  table,
  tidy: row,
  row,
  messes: [],
  written: {},
});

/** The gravest of what must become of the row. */
export function mustOf({ messes }: Pick<Paper<unknown>, 'messes'>): Must {
  const musts = messes.map(({ code }) => kindOf(code).must);
  return musts.includes('set-aside') ? 'set-aside' : musts.includes('repaired') ? 'repaired' : 'kept';
}
