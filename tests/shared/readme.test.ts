import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { deviationCodes } from '../../shared/deviations.ts';
import { recordTables, tableNames } from '../../shared/record-tables.ts';

const text = readFileSync(new URL('../../shared/README.md', import.meta.url), 'utf8');
const section = (name: string) => text.split(`\n## ${name}\n`)[1]?.split('\n## ')[0] ?? '';

it.each(tableNames)('documents every column of %s and every word it may hold', (table) => {
  for (const { name, required, choices = [] } of recordTables[table]) {
    const row = section(table)
      .split('\n')
      .find((line) => line.startsWith(`| \`${name}\`${required ? ' *' : ''} `));
    expect(row, name).toBeDefined();
    for (const word of choices) expect(row).toContain(`\`${word}\``);
  }
});

it('documents every deviation', () => {
  for (const code of deviationCodes) expect(section('Installation deviations')).toContain(`| \`${code}\``);
});
