import { describe, expect, test } from 'vitest';
import { comparedRecords, recordsInSearch, searchToView, withRecords } from '../../lib/view/index.ts';

const [a, b, c] = ['a'.repeat(64), 'b'.repeat(64), 'c'.repeat(64)] as const;
const link = (records: string, settled: string) =>
  recordsInSearch(new URL(withRecords('https://x.test/shops/?by=role', { records, settled })).search);

describe('the records in a link', () => {
  test('go along with the view and change nothing of it', () => {
    const { search } = new URL(withRecords('https://x.test/shops/?by=role', { records: a, settled: a }));
    expect(search).toBe(`?by=role&records=${a.slice(0, 12)}`);
    expect(searchToView(search)).toEqual(searchToView('?by=role'));
  });

  test.each([
    [a, a, a, a, 'same'],
    [a, c, a, c, 'same'],
    [a, a, b, b, 'other records'],
    [a, a, a, c, 'other settings'],
    [a, c, a, a, 'other settings'],
  ])('%#: are held against those that are open', (records, settled, openRecords, openSettled, says) => {
    const said = link(records, settled);
    expect(said && comparedRecords(said, { records: openRecords, settled: openSettled })).toBe(says);
  });

  test.each(['', '?records=', '?records=xyz', `?records=${a}`])('are not made up: %s', (search) =>
    expect(recordsInSearch(search)).toBeNull(),
  );
});
