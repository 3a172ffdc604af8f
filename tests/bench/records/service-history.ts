import { createWriteStream } from 'node:fs';
import { once } from 'node:events';

export const HISTORY_ROWS = 1_000_000;

/** Rows that no reader can keep, by the number of the row: each stands on a line of its own. */
const broken: Readonly<Record<number, (row: string) => string>> = {
  1_000: (row) => row.replace(/,[^,]*$/, ',"a quote that nobody closed'),
  250_000: (row) => `${row},one cell more`,
  500_000: (row) => row.split(',').slice(0, 5).join(','),
  750_000: (row) => row.replace(/\d{4}-\d{2}-\d{2}/, '2024-02-30'),
  999_000: (row) => row.replace(/,(left|right),/, ',middle,'),
};
export const BROKEN_ROWS = Object.keys(broken).length;

export const historyColumns = {
  service_id: 'varchar',
  order_id: 'varchar',
  unit_id: 'varchar',
  axle: 'integer',
  side: 'varchar',
  date: 'date',
  miles: 'double',
  shop: 'varchar',
  reason: 'varchar',
  replaced: 'varchar',
  lubricant: 'varchar',
  comment: 'varchar',
} as const;

/** Numbers from 0 to 1 out of a seed, by the generator mulberry32 (public domain). */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

const words = (random: () => number, list: readonly string[]): string => list[Math.floor(random() * list.length)] ?? '';

function rowOf(index: number, random: () => number): string {
  const day = new Date(Date.UTC(2015, 0, 1 + Math.floor(random() * 3_600))).toISOString().slice(0, 10);
  const comment = random() < 0.15 ? `"seat worn, ""${words(random, ['dry', 'damp', 'wet'])}"" inboard"` : '';
  return [
    `s${index}`,
    `o${index >> 2}`,
    String(Math.floor(random() * 9_000)).padStart(4, '0'),
    1 + Math.floor(random() * 5),
    words(random, ['left', 'right']),
    day,
    Math.floor(random() * 900_000),
    words(random, ['north', 'south', 'river', 'hill']),
    words(random, ['failure', 'planned', 'brake-work', 'inspection-finding']),
    words(random, ['seal', 'seal;gasket', 'seal;bearings;gasket', 'lining']),
    words(random, ['oil', 'semi-fluid', '']),
    comment,
  ].join(',');
}

/** Writes an invented service history of a million rows, the same each time. */
export async function writeServiceHistory(path: string): Promise<void> {
  const random = seeded(20_240_229);
  const file = createWriteStream(path);
  file.write(`${Object.keys(historyColumns).join(',')}\n`);
  let held: string[] = [];
  for (let index = 1; index <= HISTORY_ROWS; index++) {
    const row = rowOf(index, random);
    held.push(broken[index]?.(row) ?? row);
    if (held.length < 20_000 && index < HISTORY_ROWS) continue;
    if (!file.write(`${held.join('\n')}\n`)) await once(file, 'drain');
    held = [];
  }
  file.end();
  await once(file, 'finish');
}
