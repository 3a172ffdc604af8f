import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { defaultChoices } from '../../shared/choices.ts';
import { deviationCodes } from '../../shared/deviations.ts';
import { recordSetSchema } from '../../shared/record-set.ts';
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

it('documents every choice and every rule of miles', () => {
  const { positions: _, mileage, duplicates, ...others } = defaultChoices;
  const named = [...Object.keys(others), 'mileage', ...Object.keys(duplicates).map((rule) => `duplicates.${rule}`)];
  for (const name of [...named, ...Object.keys(mileage)]) expect(section('Choices')).toContain(`| \`${name}\``);
  const example = /```json\n(.*?)```/s.exec(section('Choices'))?.[1] ?? '';
  expect(recordSetSchema.parse(JSON.parse(example)).choices).toMatchObject({
    windows: [{ shop: 'South', from: '2021-07-01', to: null }],
    mileage: { ...mileage, kilometres: false },
    duplicates: { samePayload: true, reopenedOrders: false },
  });
});
