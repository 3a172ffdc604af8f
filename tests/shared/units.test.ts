// NIST SP 811 (2008), appendix B: 1 mi = 1.609344 km, 1 in = 25.4 mm exactly; 1 lbf·ft = 0.3048 m × 4.4482216152605 N.
import { expect, it } from 'vitest';
import { displayUnit, kilometresPerMile, newtonMetresPerFtLb } from '../../shared/units.ts';

it('converts exactly', () => {
  expect(newtonMetresPerFtLb).toBeCloseTo(0.3048 * 4.4482216152605, 14);
  expect(kilometresPerMile).toBe((5280 * 0.3048) / 1000);
  expect(displayUnit('length', 'metric').factor).toBe(25.4);
  expect(displayUnit('perMillionMiles', 'metric').factor * displayUnit('miles', 'metric').factor).toBe(1);
});
