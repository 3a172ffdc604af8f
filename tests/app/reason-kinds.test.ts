import { expect, test } from 'vitest';
import { reasonKinds } from '../../app/_parts/records/reason-kinds.ts';

const use = (table: 'services' | 'failures', reasons: readonly [string, number][]) => ({
  ...{ table, read: 9, kept: 0, setAside: 9 },
  reasons: reasons.map(([reason, rows]) => ({ reason, rows })),
});

test('reasons that name another row are told together, by table, most first', () => {
  const told = reasonKinds([
    use('services', [
      ['blank where a value is needed', 3],
      ['an order opened again: says the same as job cards.txt, row 30, of 2020-07-22', 1],
      ['an order opened again: says the same as job cards.txt, row 1,144, of 2017-07-17', 1],
      ['says the same as a.csv, row 7, under another id', 1],
      ['says the same as a.csv, row 8, under another id', 1],
      ['says the same as b.csv, row 8, under another id', 2],
    ]),
    use('failures', [['the id is already used by dh_defects.txt, row 33', 1]]),
  ]);
  expect(told.map(({ table, reason, rows }) => [table, reason, rows])).toEqual([
    ['services', 'says the same as another row, under another id', 4],
    ['services', 'blank where a value is needed', 3],
    ['services', 'an order opened again: says the same as another row', 2],
    ['failures', 'the id is already used by another row', 1],
  ]);
});
