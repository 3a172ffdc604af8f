import type { ChecksSeen } from './checks-seen.ts';

/** The checks of some lives in their order: those of place i are from `first[i]` to before `first[i + 1]`. */
export interface LifeChecks {
  readonly first: Int32Array;
  readonly age: Float64Array;
  readonly seen: Uint8Array;
}

/** @param rows places in the lives table, of which there are `all` */
export function lifeChecks({ life, age, seen }: ChecksSeen, rows: Int32Array, all: number): LifeChecks {
  const starts = new Int32Array(all + 1);
  for (const row of life) starts[row + 1] = (starts[row + 1] as number) + 1;
  for (let row = 0; row < all; row++) starts[row + 1] = (starts[row + 1] as number) + (starts[row] as number);
  const first = new Int32Array(rows.length + 1);
  rows.forEach((row, place) => {
    first[place + 1] = (first[place] as number) + (starts[row + 1] as number) - (starts[row] as number);
  });
  const ages = new Float64Array(first[rows.length] as number);
  const sees = new Uint8Array(ages.length);
  rows.forEach((row, place) => {
    const from = starts[row] as number;
    const count = (starts[row + 1] as number) - from;
    ages.set(age.subarray(from, from + count), first[place]);
    sees.set(seen.subarray(from, from + count), first[place]);
  });
  return { first, age: ages, seen: sees };
}

/** Ages of the dry checks of a life, ascending. */
export function dryAges({ first, age, seen }: LifeChecks, place: number): number[] {
  const ages: number[] = [];
  for (let check = first[place] as number; check < (first[place + 1] as number); check++)
    if (seen[check] === 0) ages.push(age[check] as number);
  return ages;
}
