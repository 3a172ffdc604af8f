import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { detectableRatio, requiredEvents, StatisticsError } from '../../lib/statistics/index.ts';

// Standard normal quantiles at 0.975, 0.95, 0.9 and 0.8, from any printed table to 16 digits.
const [z975, z95, z90, z80] = [1.959963984540054, 1.6448536269514722, 1.2815515655446004, 0.8416212335729143];

describe('requiredEvents by hand (Schoenfeld 1983)', () => {
  it.each([
    [2, {}, (4 * (z975 + z80) ** 2) / Math.log(2) ** 2, 66],
    [0.5, {}, (4 * (z975 + z80) ** 2) / Math.log(2) ** 2, 66],
    [1.5, { power: 0.9 }, (4 * (z975 + z90) ** 2) / Math.log(1.5) ** 2, 256],
    [2, { share: 0.2, sided: 'one' as const }, (z95 + z80) ** 2 / 0.16 / Math.log(2) ** 2, 81],
    [2, { inflation: 1.5 }, (6 * (z975 + z80) ** 2) / Math.log(2) ** 2, 99],
  ])('ratio %f, %o', (ratio, design, value, events) => {
    const got = requiredEvents({ ratio }, design);
    expect(got.value / value - 1).toBeCloseTo(0, 12);
    expect(got.events).toBe(events);
  });
});

describe('detectableRatio laws', () => {
  const design = fc.record({
    share: fc.double({ min: 0.02, max: 0.98, noNaN: true }),
    power: fc.double({ min: 0.5, max: 0.99, noNaN: true }),
    level: fc.double({ min: 0.5, max: 0.999, noNaN: true }),
    sided: fc.constantFrom('one' as const, 'two' as const),
    inflation: fc.double({ min: 1, max: 4, noNaN: true }),
  });

  it('is the reverse of requiredEvents, to 1e-9', () => {
    fc.assert(
      fc.property(design, fc.double({ min: 1.05, max: 20, noNaN: true }), (choice, ratio) => {
        const events = requiredEvents({ ratio }, choice).value;
        const { above, below } = detectableRatio({ events }, choice);
        expect(Math.abs(above / ratio - 1)).toBeLessThan(1e-9);
        expect(Math.abs(below * ratio - 1)).toBeLessThan(1e-9);
      }),
    );
  });
});

describe('requiredEvents and detectableRatio on degenerate input', () => {
  it.each([
    ['ratio', { ratio: 1 }, {}],
    ['ratio', { ratio: 0 }, {}],
    ['ratio', { ratio: NaN }, {}],
    ['share', { ratio: 2 }, { share: 1 }],
    ['power', { ratio: 2 }, { power: 0.01 }],
    ['level', { ratio: 2 }, { level: 95 }],
    ['inflation', { ratio: 2 }, { inflation: 0.5 }],
  ])('%s at fault: %o %o', (argument, data, design) => {
    expect(() => requiredEvents(data, design)).toThrow(StatisticsError);
    expect(() => requiredEvents(data, design)).toThrow(argument);
  });

  it('no events find nothing', () => expect(() => detectableRatio({ events: 0 })).toThrow('events'));
});
