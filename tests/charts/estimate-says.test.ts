import { expect, test } from 'vitest';
import { intervalKindSays } from '../../lib/charts/index.ts';
import type { Estimate } from '../../shared/finding.ts';

const ratio: Estimate = { value: 2, lower: 1.5, upper: 2.6, level: 0.95, unit: 'ratio', method: 'Cox' };

test('an interval of one kind is that of the method', () => {
  expect(intervalKindSays(ratio, 'us')).toBe('95\u00a0%, by the method named');
});

test('of two kinds both are told, and that the outer is shown', () => {
  const said = intervalKindSays({ ...ratio, vehicleLower: 1.2, vehicleUpper: null }, 'us');
  expect(said).toContain('own limit (1.50 to 2.60)');
  expect(said).toContain('(1.20 to unbounded)');
});

test('limits are told in the reader’s units', () => {
  const life = { ...ratio, unit: 'miles', lower: 1000, upper: 2000, vehicleLower: 900, vehicleUpper: 2100 };
  expect(intervalKindSays(life, 'metric')).toContain('(1,609 to 3,219)');
});

test('without limits there is no kind', () => {
  expect(intervalKindSays({ ...ratio, lower: null, upper: null }, 'us')).toBe('none');
});
