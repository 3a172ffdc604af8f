import {
  DateDay,
  Dictionary,
  Field,
  Float64,
  Int32,
  List,
  RecordBatch,
  Schema,
  Struct,
  Table,
  Utf8,
  makeData,
  tableToIPC,
  vectorFromArray,
  type DataType,
  type Vector,
} from 'apache-arrow';
import type { Writer } from './writer.ts';

const allFilled = (texts: readonly string[], like: RegExp): boolean =>
  texts.some((text) => text !== '') && texts.every((text) => text === '' || (text.length < 200 && like.test(text)));

/** Texts as what they look like, or as texts or words kept once. */
function vectorOf(texts: readonly string[], typed: boolean, coded: boolean): Vector {
  const known = texts.map((text) => (text === '' ? null : text));
  if (typed && allFilled(texts, /^(19|20)\d\d-(0\d|1[0-2])-([01]\d|2[0-8])$/))
    return vectorFromArray(
      known.map((text) => (text === null ? null : new Date(text))),
      new DateDay(),
    );
  if (typed && allFilled(texts, /^[1-9]\d{0,6}\.\d$/))
    return vectorFromArray(
      known.map((text) => (text === null ? null : Number(text))),
      new Float64(),
    );
  if (typed && allFilled(texts, /^[a-z]+(;[a-z]+)*$/) && texts.some((text) => text.includes(';')))
    return vectorFromArray(
      known.map((text) => text?.split(';') ?? null),
      new List(new Field('item', new Utf8(), true)),
    );
  return vectorFromArray(known, coded ? new Dictionary(new Utf8(), new Int32(), 1) : new Utf8());
}

/** A table that may have one name twice, in one block of rows or two. */
function tableOf(headers: readonly string[], columns: readonly Vector[]): Table {
  const fields = headers.map((name, at) => new Field(name, columns[at]!.type as DataType, true));
  const schema = new Schema(fields);
  const length = columns[0]?.length ?? 0;
  const data = makeData({
    type: new Struct(fields),
    length,
    nullCount: 0,
    children: columns.map((column) => column.data[0]!),
  });
  return new Table([new RecordBatch(schema, data as never)]);
}

/** Arrow by its own library: a file or a stream. */
const arrow = (kind: 'file' | 'stream'): Writer => ({
  format: `arrow-${kind}`,
  counts: 'all',
  async write({ headers, rows }, random) {
    const typed = random.chance(0.5);
    // The writer takes no more than one column of words kept once for sure.
    const coded = random.below(headers.length * 2);
    const columns = headers.map((_, at) =>
      vectorOf(
        rows.map((row) => row[at] ?? ''),
        typed,
        at === coded,
      ),
    );
    const bytes = tableToIPC(tableOf(headers, columns), kind);
    return { ending: '.arrow', bytes, text: null, exact: true };
  },
});

export const arrowFile = arrow('file');
export const arrowStream = arrow('stream');
