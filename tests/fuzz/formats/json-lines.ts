import type { Writer } from './writer.ts';

const number = /^(0|[1-9]\d{0,11})(\.\d{1,3})?$/;

/** An object a line; numbers as such, lists maybe as such, blanks left out or null. */
export const jsonLines: Writer = {
  format: 'json-lines',
  weight: 2,
  counts: 'all',
  async write({ headers, rows }, random) {
    const [typed, lists, blanks] = [random.chance(0.5), random.chance(0.5), random.chance(0.5)];
    const valueOf = (cell: string): unknown => {
      if (typed && number.test(cell) && String(Number(cell)) === cell) return Number(cell);
      return lists && cell.length < 200 && /^[a-z]+(;[a-z]+)+$/.test(cell) ? cell.split(';') : cell;
    };
    const objects = rows.map((row) =>
      Object.fromEntries(
        headers.flatMap((header, at) => {
          const cell = row[at] ?? '';
          if (cell !== '') return [[header, valueOf(cell)]];
          return blanks || (row === rows[0] && rows.every((other) => !other[at])) ? [[header, null]] : [];
        }),
      ),
    );
    const text = objects.map((object) => JSON.stringify(object)).join('\n');
    return { ending: '.jsonl', bytes: new TextEncoder().encode(`${text}\n`), text: 'utf-8', exact: true };
  },
};
