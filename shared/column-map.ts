import { z } from 'zod';
import { recordTables, tableNames, type TableName } from './record-tables.ts';
import { sourceChoiceSchema } from './source-choice.ts';
import { cellUnits } from './units.ts';
import { sides } from './vocabulary.ts';

export const columnMapVersion = 1;

/** Our column for where on a vehicle a row was: it becomes `axle` and `side`. */
export const positionColumn = 'position';
export const positionedTables: readonly TableName[] = ['services', 'inspections', 'failures'];

const header = z.string().min(1);

/** One of the file's columns behind one of ours, with the words of its cells that mean another: `LH` → `left`; to '' = not known. */
const partSchema = z.strictObject({
  header,
  words: z.record(z.string(), z.string()).optional(),
  /** Of a position: the cell says nothing but the side, so that `D` is the driver's and no drive axle. */
  only: z.enum(['side']).optional(),
});
export type ColumnPart = z.infer<typeof partSchema>;

/**
 * How several columns become one: their texts with a space or a dash between them; the words of all
 * as one list; or the first that is not blank.
 */
export const joins = ['space', 'dash', 'list', 'first-filled'] as const;

const columnSourceSchema = z
  .strictObject({
    /** A column of the record contract, or `position`. */
    ours: z.string().min(1),
    from: z.array(partSchema).optional(),
    joined: z.enum(joins).optional(),
    /** The same for every row of the file. */
    fixed: z.string().optional(),
    /** An id made of the whole row: the same row has the same id in next month's file. */
    made: z.literal('of-row').optional(),
    unit: z.enum(cellUnits).optional(),
    /** A column that says the unit of each row; a cell it leaves blank is in `unit`. */
    unitFrom: partSchema.optional(),
    /** Characters that part the words of a list, `;` beside them. */
    partedBy: z.string().optional(),
    /** A cell that cannot be read sets its row aside, or counts as not known and is counted. */
    unreadable: z.enum(['set-aside', 'blank']).optional(),
    /** What day a date is, where it is not that of the repair itself. */
    day: z.enum(['repair', 'opened', 'closed']).optional(),
    /** Leading text that is no part of an id, and the length to which zeros fill it up: `#412` → `0412`. */
    drop: z.string().optional(),
    padTo: z.int().positive().max(40).optional(),
  })
  .refine(({ from, fixed, made }) => [from?.length ? from : undefined, fixed, made].filter(Boolean).length === 1, {
    message: 'a column comes from columns of the file, or is fixed, or is made of the row: one of the three',
  })
  .refine(({ from = [], joined }) => from.length < 2 || joined !== undefined, {
    message: 'several columns need to be joined: joined says how',
  });
export type ColumnSource = z.infer<typeof columnSourceSchema>;

const tableName = z.enum(tableNames);
export const passedOver = 'passed-over';

/** What the rows feed: one table, or one told by the words of a column. */
const feedsSchema = z.union([
  z.strictObject({ table: tableName }),
  z.strictObject({
    by: header,
    words: z.record(z.string(), z.union([tableName, z.literal(passedOver)])),
    /** Rows with any other word: passed over, or in question and set aside as such. */
    others: z.union([tableName, z.literal(passedOver), z.literal('set-aside')]),
  }),
]);

export const dateOrders = ['ymd', 'dmy', 'mdy'] as const;
export type DateOrder = (typeof dateOrders)[number];

/** What a spelling means that says too little by itself, confirmed once for all its rows. */
const positionRuleSchema = z.strictObject({
  spelling: z.string().min(1),
  /** Units it is for, by their roles front to rear with spaces between them; absent = all. */
  roles: z.string().optional(),
  axle: z.int().min(1).max(20),
  side: z.enum(sides),
});
export type PositionRule = z.infer<typeof positionRuleSchema>;

const positionsSchema = z.strictObject({
  /** Where the driver sits: decides driver, passenger, curb, road, near and off side. Absent = not said, such words are ambiguous. */
  driverSits: z.enum(sides).optional(),
  /** Axles of the units ahead where trailer axles are counted through the combination; absent = each unit from its own front. */
  axlesAhead: z.int().min(1).max(15).optional(),
  rules: z.array(positionRuleSchema).optional(),
});
export type PositionSettings = z.infer<typeof positionsSchema>;

const tablesSchema = z.partialRecord(tableName, z.array(columnSourceSchema).min(1));

/** How the headers, units and words of one source become ours. Saved as JSON, applied to its next file without asking. */
export const columnMapSchema = z
  .strictObject({
    version: z.literal(columnMapVersion),
    /** What the fleet calls the source: `north shop, work orders`. */
    source: z.string().min(1),
    /** All headers of the file it was made for; a name like `wo-*.csv` narrows it to such files. */
    recognised: z.strictObject({ headers: z.array(z.string()).min(1), fileName: z.string().optional() }),
    where: sourceChoiceSchema.optional(),
    feeds: feedsSchema,
    tables: tablesSchema,
    /** `order` of day, month and year in dates that do not say it themselves; `serials`: plain numbers are days counted from 1900 or 1904. */
    dates: z.strictObject({ order: z.enum(dateOrders).optional(), serials: z.enum(['1900', '1904']).optional() }),
    numbers: z.strictObject({ decimal: z.enum(['point', 'comma']) }),
    /** Whole cells that mean not known, in any column. */
    blanks: z.array(z.string()).optional(),
    positions: positionsSchema.optional(),
  })
  .superRefine(({ feeds, tables }, context) => {
    const problem = (message: string, path: (string | number)[]) => context.addIssue({ code: 'custom', message, path });
    for (const table of fedTables(feeds))
      if (!tables[table]) problem(`rows feed ${table}, which has no columns`, ['tables']);
    for (const table of tableNames)
      for (const [at, said] of unfit(table, tables[table] ?? [])) problem(said, ['tables', table, at]);
  });
export type ColumnMap = z.infer<typeof columnMapSchema>;
export type Feeds = ColumnMap['feeds'];

/** The tables that rows of a file can feed, in the contract's order. */
export function fedTables(feeds: Feeds): TableName[] {
  if ('table' in feeds) return [feeds.table];
  const named: readonly string[] = [...Object.values(feeds.words), feeds.others];
  return tableNames.filter((table) => named.includes(table));
}

/** Our columns that a map can fill in a table; `axle` and `side` are filled through `position`. */
export function mappableColumns(table: TableName): string[] {
  const names = recordTables[table].map(({ name }) => name);
  if (!positionedTables.includes(table)) return names;
  return names.flatMap((name) => (name === 'axle' ? [positionColumn] : name === 'side' ? [] : [name]));
}

/** Columns that a row of the table cannot do without, as a map names them. */
export function neededColumns(table: TableName): string[] {
  const required = recordTables[table].flatMap(({ name, required }) => (required ? [name] : []));
  return mappableColumns(table).filter((name) => name === positionColumn || required.includes(name));
}

function* unfit(table: TableName, columns: readonly ColumnSource[]): Generator<[at: number, said: string]> {
  const known = mappableColumns(table);
  const seen = new Set<string>();
  for (const [at, { ours }] of columns.entries()) {
    if (!known.includes(ours)) yield [at, `${table} have no column ${ours}`];
    if (seen.has(ours)) yield [at, `${ours} is filled twice`];
    seen.add(ours);
  }
  const missing = columns.length === 0 ? [] : neededColumns(table).filter((name) => !seen.has(name));
  if (missing.length > 0) yield [columns.length, `${table} need ${missing.join(', ')}`];
}
