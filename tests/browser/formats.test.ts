import { expect, it } from 'vitest';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { readRecords } from '../../lib/records/index.ts';
import { writtenFile } from '../records/packing.ts';
import { source } from '../records/sources.ts';
import { openFiles, recordFile, usePages } from './page.ts';

const opened = usePages();

const failure = { failure_id: 'f1', unit_id: '007', axle: 1, side: 'left', date: '2024-04-01', mode: 'seal-inner' };
const files: readonly (readonly [name: string, bytes: Uint8Array])[] = [
  ['failures.jsonl', new TextEncoder().encode(`${JSON.stringify(failure)}\n{"broken\n`)],
  ['readings.arrow', writtenFile('readings.arrow')],
  ['services.xlsx', writtenFile('jobs-openpyxl.xlsx')],
  ['shop.zip', writtenFile('shop.zip')],
  ['units-latin.csv', Uint8Array.from('unit_id;axle_roles;duty\n9;steer;Z\u00fcrich\n', (one) => one.charCodeAt(0))],
  ['units-locked.zip', writtenFile('locked.zip')],
  ['units.parquet', writtenFile('units.parquet')],
];

it('reads every kind of file in the page as the command line does', async () => {
  const engine = await openNodeEngine();
  const report = await readRecords(
    engine,
    files.map(([name, bytes]) => source(name, bytes)),
  );
  await engine.close();
  const used = report.files.filter(({ refused }) => refused === null);
  // Five of the files, and four inside the archive.
  expect(used).toHaveLength(9);
  const { page, go } = opened();
  await go('records/');
  await page.locator('[data-ready=true]').waitFor();
  await openFiles(
    page,
    files.map(([name, bytes]) => recordFile(name, bytes)),
  );
  await page.locator(`[data-set-aside="${used.reduce((sum, { setAside }) => sum + setAside, 0)}"]`).waitFor();
  const shown = await page.locator('main').innerText();
  for (const { name, table, read, kept, setAside, refused } of report.files) {
    const counts = refused === null ? [table, read, kept, setAside].join('\\s+') : '';
    expect(shown).toMatch(new RegExp(`${name.replaceAll(/[.()]/g, '\\$&')}\\s+${counts}`));
  }
  expect(shown).toContain('was read as Windows-1252');
  expect(shown).toContain('is locked with a password; take the password off');
});
