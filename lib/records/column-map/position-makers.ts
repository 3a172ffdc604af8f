import type { ColumnMap, ColumnSource } from '../../../shared/column-map.ts';
import type { RecordColumn } from '../../../shared/record-tables.ts';
import type { CutRow } from '../cut-row.ts';
import { acceptedPosition, readPosition } from '../positions/read-position.ts';
import { blankCell, madeCell, textOfCell, unreadable, type CellMaker, type MadeCell } from './cell-maker.ts';
import { blanksOf } from './cell-words.ts';
import { partReader } from './conversion.ts';
import type { UnitRoles } from './unit-roles.ts';

interface MadePosition {
  readonly axle: MadeCell;
  readonly side: MadeCell;
}

const mostRemembered = 50_000;
const decoder = new TextDecoder();

/** Reads the place of a row once for its axle and its side, by the axles of the row's unit. */
class PositionReader {
  readonly headers: readonly string[];
  readonly cells: readonly number[];
  readonly #parts;
  readonly #remembered = new Map<string, MadePosition>();
  readonly #settings;

  constructor(
    source: ColumnSource,
    map: ColumnMap,
    places: ReadonlyMap<string, number>,
    private readonly unit: CellMaker,
    private readonly roles: UnitRoles,
  ) {
    const blanks = blanksOf(map.blanks);
    this.#parts = (source.from ?? []).map((part) => ({
      reader: partReader(part, blanks),
      onlySide: part.only === 'side',
    }));
    this.headers = this.#parts.map(({ reader }) => reader.header);
    this.cells = this.headers.map((header) => places.get(header)!);
    this.#settings = map.positions ?? {};
  }

  read(row: CutRow): MadePosition {
    let place = '';
    let side: string | null = null;
    for (let part = 0; part < this.#parts.length; part++) {
      const text = textOfCell(row, this.cells[part]!);
      if (text === null) return faulty(unreadable(row, this.cells[part]!));
      const { onlySide, reader } = this.#parts[part]!;
      const words = reader.read(text);
      if (onlySide) side = `${side ?? ''} ${words}`;
      else place = place === '' ? words : `${place} ${words}`;
    }
    const axles = this.roles.of(decoder.decode(this.unit.make(row).bytes));
    const key = `${axles?.key ?? '?'}\u001f${place}\u001f${side ?? ''}`;
    const known = this.#remembered.get(key);
    if (known) return known;
    if (this.#remembered.size >= mostRemembered) this.#remembered.clear();
    const blank = place.trim() === '' && (side ?? '').trim() === '';
    const found = blank
      ? 'blank where a value is needed'
      : readPosition(place, side, axles?.roles ?? null, this.#settings);
    const made =
      typeof found === 'string' ? faulty(found) : { axle: madeCell(String(found.axle)), side: madeCell(found.side) };
    this.#remembered.set(key, made);
    return made;
  }
}

function faulty(fault: string): MadePosition {
  const made = { bytes: blankCell.bytes, fault };
  return { axle: made, side: made };
}

/** The makers of `axle` and `side`; `side` of a row is asked for after its `axle`. */
export function positionMakers(
  source: ColumnSource,
  columns: { readonly axle: RecordColumn; readonly side: RecordColumn },
  map: ColumnMap,
  places: ReadonlyMap<string, number>,
  unit: CellMaker,
  roles: UnitRoles,
): CellMaker[] {
  const reader = new PositionReader(source, map, places, unit, roles);
  let read: MadePosition = { axle: blankCell, side: blankCell };
  const both = {
    cells: reader.cells,
    headers: reader.headers,
    accepted: acceptedPosition,
    through: null,
    leftBlank: 0,
  };
  return [
    { ...both, column: columns.axle, make: (row) => (read = reader.read(row)).axle },
    { ...both, column: columns.side, make: () => read.side },
  ];
}
