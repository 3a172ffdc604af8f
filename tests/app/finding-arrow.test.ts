import { tableFromIPC } from 'apache-arrow';
import { expect, test } from 'vitest';
import { findingArrow } from '../../app/_state/finding-arrow.ts';
import { findingRows } from '../../lib/charts/index.ts';
import { threeRoles } from '../charts/invented-findings.ts';

test('a finding as Arrow holds the rows of its CSV: numbers as numbers, what is unbounded as null', async () => {
  const finding = threeRoles();
  const table = tableFromIPC(new Uint8Array(await (await findingArrow(finding)).arrayBuffer()));
  const { header, rows } = findingRows(finding);
  expect(table.schema.fields.map(({ name }) => name)).toEqual(header);
  expect(table.numRows).toBe(rows.length);
  const column = (name: string) => Array.from({ length: table.numRows }, (_, row) => table.getChild(name)?.get(row));
  expect(column('role')).toEqual(['steer', 'drive', 'trailer']);
  expect(column('value')).toEqual([165_000, 127_000, 74_000.5]);
  expect(column('upper')).toEqual([null, 135_000, 83_000]);
});
