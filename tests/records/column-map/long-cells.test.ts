import { expect, it } from 'vitest';
import { readNumber } from '../../../lib/records/column-map/number-text.ts';

it('a cell of a million blanks between two digits is no number, and that at once', () => {
  const settings = { decimal: 'point', quantity: null, unit: undefined } as const;
  const cell = `1${' '.repeat(1_000_000)}1`;
  expect(readNumber(cell, settings)).toBe('not a number as this source writes them');
});
