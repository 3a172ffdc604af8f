import type { RecordColumn } from '../../shared/record-tables.ts';
import type { AppendColumn } from '../engine/engine.ts';
import type { CellColumn } from './cell-column.ts';
import { ChoiceCells } from './choice-cells.ts';
import { ListCells } from './list-cells.ts';
import { DateCells, NumberCells } from './numeric-cells.ts';
import { RepeatingCells } from './repeating-cells.ts';
import { TextCells } from './text-cells.ts';

/** The reader of a column by its kind; `capacity` in rows. */
export function cellColumnOf(column: RecordColumn, capacity: number): CellColumn {
  switch (column.kind) {
    case 'text':
      return new RepeatingCells(new TextCells(capacity), capacity);
    case 'list':
      return new RepeatingCells(new ListCells(column, capacity), capacity);
    case 'choice':
      return new ChoiceCells(column.choices ?? [], capacity);
    case 'date':
      return new DateCells(capacity);
    case 'number':
    case 'integer':
      return new NumberCells(capacity, column);
  }
}

/** A column that a file does not have. */
export function absentColumn({ kind }: RecordColumn, rows: number): AppendColumn {
  if (kind === 'text' || kind === 'list' || kind === 'choice') return { codes: new Uint8Array(rows), words: [] };
  return new Float64Array(rows).fill(NaN);
}
