import { DuckDBDecimalValue, DuckDBTypeId, type DuckDBMaterializedResult, type DuckDBValue } from '@duckdb/node-api';
import type { ResultColumn, ResultTable } from './engine.ts';
import { decimalNumber, undecodable, wholeNumber } from './plain-number.ts';

const numberTypes: readonly DuckDBTypeId[] = [
  DuckDBTypeId.BOOLEAN,
  DuckDBTypeId.TINYINT,
  DuckDBTypeId.SMALLINT,
  DuckDBTypeId.INTEGER,
  DuckDBTypeId.BIGINT,
  DuckDBTypeId.HUGEINT,
  DuckDBTypeId.UTINYINT,
  DuckDBTypeId.USMALLINT,
  DuckDBTypeId.UINTEGER,
  DuckDBTypeId.UBIGINT,
  DuckDBTypeId.UHUGEINT,
  DuckDBTypeId.FLOAT,
  DuckDBTypeId.DOUBLE,
  DuckDBTypeId.DECIMAL,
  DuckDBTypeId.SQLNULL,
];

/** A native result as plain columns. The library drops a byte order mark at the start of a text. */
export async function decodeNative(result: DuckDBMaterializedResult): Promise<ResultTable> {
  const names = result.columnNames();
  const isText = names.map((name, index) => {
    const type = result.columnTypeId(index);
    if (type !== DuckDBTypeId.VARCHAR && !numberTypes.includes(type)) {
      throw undecodable(name, String(result.columnType(index)));
    }
    return type === DuckDBTypeId.VARCHAR;
  });
  const rows = result.rowCount;
  const columns: ResultColumn[] = isText.map((text) =>
    text ? new Array<string | null>(rows) : new Float64Array(rows),
  );
  let start = 0;
  for (const chunk of await result.fetchAllChunks()) {
    columns.forEach((column, index) => {
      const vector = chunk.getColumnVector(index);
      for (let row = 0; row < vector.itemCount; row++) {
        const value = vector.getItem(row);
        if (column instanceof Float64Array) column[start + row] = plainNumber(value, names[index]!);
        else column[start + row] = value as string | null;
      }
    });
    start += chunk.rowCount;
  }
  return { rows, columns: Object.fromEntries(names.map((name, index) => [name, columns[index]!])) };
}

function plainNumber(value: DuckDBValue, column: string): number {
  if (typeof value === 'number') return value;
  if (value === null) return NaN;
  if (typeof value === 'boolean') return value ? 1 : 0;
  if (typeof value === 'bigint') return wholeNumber(value, column);
  if (value instanceof DuckDBDecimalValue) return decimalNumber(value.value, value.scale, column);
  throw undecodable(column, typeof value);
}
