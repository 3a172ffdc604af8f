import { describe, expect, it } from 'vitest';
import { recordTables } from '../../shared/record-tables.ts';
import type { AppendColumn } from '../../lib/engine/engine.ts';
import { CellText } from '../../lib/records/cell-text.ts';
import { ListCells } from '../../lib/records/list-cells.ts';
import { RepeatingCells } from '../../lib/records/repeating-cells.ts';
import { TextCells } from '../../lib/records/text-cells.ts';

const capacity = 600;
const texts = () => new RepeatingCells(new TextCells(capacity), capacity);

/** The texts of a column in whichever form it is given. */
function textsOf(column: AppendColumn): (string | null)[] {
  if (column instanceof Float64Array || Array.isArray(column)) throw new Error('text as codes or bytes was expected');
  if ('codes' in column) return Array.from(column.codes, (code) => column.words[code - 1] ?? null);
  const { bytes, offsets, known } = column;
  return Array.from(known, (is, row) =>
    is === 0 ? null : new TextDecoder().decode(bytes.subarray(offsets[row], offsets[row + 1])),
  );
}

/** Writes rows, blank where null, and gives them back. */
function through(cells: RepeatingCells, rows: readonly (string | null)[]): (string | null)[] {
  rows.forEach((text, row) => {
    if (text === null) cells.blank(row);
    else expect(cells.write(row, CellText.of(text)), text).toBe(true);
  });
  return textsOf(cells.taken(rows.length));
}

const among = (count: number) =>
  Array.from({ length: capacity }, (_, row) => (row % 7 === 3 ? null : `word ${row % count}`));

describe('cells of which most repeat', () => {
  it.each([1, 255, 256, 257, 600])('keep each row its text, of %i words', (count) => {
    expect(through(texts(), among(count))).toEqual(among(count));
  });

  it.each([10, 300])('keep each row its text in the next batches, too, of %i words', (count) => {
    const cells = texts();
    for (const rows of [among(count), ['other', null, 'word 1'], among(count)])
      expect(through(cells, rows)).toEqual(rows);
  });

  it('are codes where the words are few and bytes where they are many', () => {
    const [few, many] = [texts(), texts()];
    through(few, among(10));
    through(many, among(300));
    expect(few.taken(0)).toHaveProperty('codes');
    expect(many.taken(0)).toHaveProperty('bytes');
  });

  it.each([200, 500])('keep each row its text where room is made for more at row %i', (at) => {
    const cells = new RepeatingCells(new TextCells(at), at);
    const rows = among(300);
    rows.forEach((text, row) => {
      if (row === at) cells.widen(capacity);
      if (text === null) cells.blank(row);
      else cells.write(row, CellText.of(text));
    });
    expect(textsOf(cells.taken(capacity))).toEqual(rows);
  });

  it('tell apart words alike in length, first, middle and last letter', () => {
    const rows = ['north', 'noxth', 'nerth', 'north', 'narth', 'n0rth', 'noxth', 'nort', 'nor', 'no', 'n'];
    expect(through(texts(), rows)).toEqual(rows);
  });

  it('keep long words and words beyond ASCII', () => {
    const rows = ['short', 'x'.repeat(64), 'Größe', 'x'.repeat(65), 'x'.repeat(10_000), 'short', null, 'Größe'];
    expect(through(texts(), rows)).toEqual(rows);
  });

  it('take a row again that was begun before', () => {
    const cells = texts();
    cells.write(0, CellText.of('first'));
    expect(through(cells, ['second', 'first', null])).toEqual(['second', 'first', null]);
  });

  it('refuse a byte of zero each time it comes, and keep what was before and comes after', () => {
    const cells = texts();
    cells.write(0, CellText.of('oil'));
    for (let time = 0; time < 300; time++) expect(cells.write(1, CellText.of('o\0l'))).toBe(false);
    expect(through(cells, ['oil', 'oil'])).toEqual(['oil', 'oil']);
  });

  it('read a list however it is spelled, and refuse one with a word that is none of it', () => {
    const replaced = recordTables.services.find(({ name }) => name === 'replaced')!;
    const cells = new RepeatingCells(new ListCells(replaced, capacity), capacity);
    const spelled = ['seal;gasket', ' Seal ; gasket', 'SEAL;;GASKET;', ';', 'seal;gasket'];
    spelled.forEach((text, row) => expect(cells.write(row, CellText.of(text)), text).toBe(true));
    expect(cells.write(5, CellText.of('seal;wheel nut'))).toBe(false);
    expect(textsOf(cells.taken(5))).toEqual(['seal;gasket', 'seal;gasket', 'seal;gasket', null, 'seal;gasket']);
  });
});
