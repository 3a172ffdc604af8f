import { positionColumn, type ColumnMap } from '../../../shared/column-map.ts';
import { recordTables, type RecordColumn, type TableName } from '../../../shared/record-tables.ts';
import { problemOf } from '../cell-problem.ts';
import type { CellText } from '../cell-text.ts';
import type { CutRow } from '../cut-row.ts';
import { blankCell, cellMaker, type CellMaker, type MadeCell } from './cell-maker.ts';
import { positionMakers } from './position-makers.ts';
import type { UnitRoles } from './unit-roles.ts';

/** The makers of the cells that a map fills in a table, in the table's order. */
export function makersOf(
  table: TableName,
  map: ColumnMap,
  places: ReadonlyMap<string, number>,
  roles: UnitRoles,
): CellMaker[] {
  const sources = map.tables[table] ?? [];
  const sourceOf = (name: string) => sources.find(({ ours }) => ours === name);
  const columns = new Map<string, RecordColumn>(recordTables[table].map((column) => [column.name, column]));
  const makers = [...columns].flatMap(([name, column]) => {
    const source = sourceOf(name);
    return source ? [cellMaker(source, column, map, places)] : [];
  });
  const place = sourceOf(positionColumn);
  const unit = makers.find(({ column }) => column.name === 'unit_id');
  const [axle, side] = [columns.get('axle'), columns.get('side')];
  if (!place || !unit || !axle || !side) return makers;
  const at = makers.indexOf(unit) + 1;
  return [
    ...makers.slice(0, at),
    ...positionMakers(place, { axle, side }, map, places, unit, roles),
    ...makers.slice(at),
  ];
}

/** A row of a file as a row of one of our tables: its cells are ours, in the order of the makers. */
export class MappedRow implements CutRow {
  #row: CutRow | null = null;
  #made: MadeCell = blankCell;

  constructor(readonly makers: readonly CellMaker[]) {}

  of(row: CutRow): this {
    this.#row = row;
    return this;
  }

  cell(index: number, text: CellText): boolean {
    const maker = this.makers[index]!;
    if (maker.through !== null) return this.#row!.cell(maker.through, text);
    this.#made = maker.make(this.#row!);
    const { bytes, fault } = this.#made;
    return text.take(bytes, 0, bytes.length, false, false) && fault === null;
  }

  /** The file's own cells. */
  shown(index: number): string {
    return this.makers[index]!.cells.map((cell) => this.#row!.shown(cell)).join(' | ');
  }

  /** Why the cell last asked for was not accepted. */
  fault(index: number): string | null {
    const { through, column, cells } = this.makers[index]!;
    if (through !== null) return this.#row!.fault?.(cells[0]!) ?? null;
    return this.#made.fault ?? problemOf(column, new TextDecoder().decode(this.#made.bytes));
  }

  /** The headers of the cells, as the file has them. */
  named(index: number): string {
    const { headers, column } = this.makers[index]!;
    return headers.length > 0 ? headers.join(' | ') : column.name;
  }

  accepted(index: number): string {
    return this.makers[index]!.accepted;
  }

  original(): string {
    return this.#row!.original();
  }
}
