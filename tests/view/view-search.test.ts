import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { searchToView, viewToSearch } from '../../lib/view/index.ts';
import { deviationCodes } from '../../shared/deviations.ts';
import { cutColumns } from '../../shared/lives.ts';
import { defaultView, viewSchema, type View } from '../../shared/view.ts';
import { kilometresPerMile } from '../../shared/units.ts';
import { failureModes } from '../../shared/vocabulary.ts';

const column = fc.constantFrom(...cutColumns);
const day = fc
  .date({ min: new Date('1990-01-01'), max: new Date('2040-12-31'), noInvalidDate: true })
  .map((date) => date.toISOString().slice(0, 10));
const anyView: fc.Arbitrary<View> = fc
  .record({
    component: fc.constantFrom('seal', 'gasket', 'bearing'),
    mode: fc.option(fc.constantFrom(...failureModes)),
    by: fc.array(column, { maxLength: 2 }),
    where: fc.dictionary(column, fc.array(fc.string({ unit: 'grapheme' }), { minLength: 1, maxLength: 4 })),
    installedFrom: fc.option(day),
    installedTo: fc.option(day),
    horizonMiles: fc.oneof(
      fc.double({ min: 1e-6, max: 5_000_000, noNaN: true }),
      fc.integer({ min: 1, max: 5_000_000 }),
      fc.integer({ min: 1, max: 8_000_000 }).map((kilometres) => kilometres / kilometresPerMile),
    ),
    axis: fc.constantFrom('miles', 'months'),
    horizonMonths: fc.oneof(fc.integer({ min: 1, max: 1_200 }), fc.double({ min: 1e-6, max: 1_200, noNaN: true })),
    level: fc.double({ min: 0.51, max: 0.999, noNaN: true }),
    interval: fc.constantFrom('log-log', 'log', 'plain'),
    adjust: fc.array(column, { maxLength: 4 }),
    change: fc.option(day),
    changedShops: fc.array(fc.string({ unit: 'grapheme', minLength: 1 }), { maxLength: 3 }),
    saving: fc.array(fc.constantFrom(...deviationCodes), { maxLength: 4 }),
    savingTo: fc.constantFrom('best-shop', 'zero'),
    savingLevels: fc.dictionary(
      fc.constantFrom(...deviationCodes),
      fc.double({ min: 0, max: 1, noNaN: true }).map((share) => share + 0),
    ),
    plannedCost: fc.double({ min: 1e-6, max: 100_000_000, noNaN: true }),
    failureCost: fc.integer({ min: 1, max: 100_000_000 }),
    downtimeCost: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 100_000_000, noNaN: true })),
    liningCost: fc.integer({ min: 0, max: 100_000_000 }),
    roadCallCost: fc.double({ min: 0, max: 1e6, noNaN: true }),
    ahead: fc.constantFrom('miles', 'months'),
    aheadMiles: fc.oneof(
      fc.double({ min: 1e-6, max: 1_000_000, noNaN: true }),
      fc.integer({ min: 1, max: 1_600_000 }).map((kilometres) => kilometres / kilometresPerMile),
    ),
    aheadMonths: fc.double({ min: 1e-6, max: 120, noNaN: true }),
  })
  .map((view) => viewSchema.parse(view));

describe('a view and its link', () => {
  test('lead to each other exactly, for any view and unit system', () => {
    fc.assert(
      fc.property(anyView, fc.constantFrom('us', 'metric'), (view, units) => {
        expect(searchToView(viewToSearch(view, units))).toEqual({ view, units, notices: [] });
      }),
      { numRuns: 500 },
    );
  });

  test('the first view needs no query', () => {
    expect(viewToSearch(defaultView, 'us')).toBe('');
    expect(searchToView('')).toEqual({ view: defaultView, units: 'us', notices: [] });
  });

  test('a link is short and can be read', () => {
    const view = viewSchema.parse({
      by: ['role', 'lubricant'],
      where: { shop: ['Thornby', 'Lowfield'] },
      horizonMiles: 150_000 / kilometresPerMile,
    });
    expect(viewToSearch(view, 'metric')).toBe(
      '?by=role+lubricant&shop=Thornby&shop=Lowfield&horizon=150000km&units=metric',
    );
  });

  test('months have a horizon of their own', () => {
    expect(viewToSearch(viewSchema.parse({ axis: 'months', horizonMonths: 48 }), 'us')).toBe('?axis=months&months=48');
    const { view, notices } = searchToView('?axis=weeks&months=0');
    expect(view).toEqual(defaultView);
    expect(notices).toHaveLength(2);
  });

  test('a comma parts words typed by hand', () => {
    expect(searchToView('?by=role,lubricant')).toMatchObject({ view: { by: ['role', 'lubricant'] }, notices: [] });
  });
});

describe('a link that cannot be used', () => {
  test.each([
    ['horizon', '?horizon=far', 'above 0'],
    ['horizon', '?horizon=-5', 'above 0'],
    ['horizon', '?horizon=9000000', 'at most 5,000,000'],
    ['horizon', '?horizon=', 'above 0'],
    ['by', '?by=colour', 'lives table'],
    ['by', '?by=role+side+axle', 'at most two'],
    ['from', '?from=31/12/2024', '2024-12-31'],
    ['level', '?level=95', 'between 0.5 and 1'],
    ['mode', '?mode=toString', 'failure mode'],
    ['planned-cost', '?planned-cost=0', 'a cost'],
    ['lining-cost', '?lining-cost=-1', 'a cost'],
    ['road-call-cost', '?road-call-cost=', 'a cost'],
    ['ahead', '?ahead=weeks', 'miles or months'],
    ['ahead-miles', '?ahead-miles=2000000', 'at most 1,000,000'],
    ['ahead-months', '?ahead-months=121', 'at most 120'],
    ['units', '?units=furlongs', 'us or metric'],
    ['__proto__', '?__proto__=1', 'this version'],
    ['colour', '?colour=red', 'this version'],
  ])('says what is wrong with %s in %s and falls back', (name, search, rule) => {
    const { view, units, notices } = searchToView(search);
    expect({ view, units }).toEqual({ view: defaultView, units: 'us' });
    expect(notices).toHaveLength(1);
    expect(notices[0]).toContain(`“${name}”`);
    expect(notices[0]).toContain(rule);
  });

  test('keeps what is good beside what is bad', () => {
    const { view, notices } = searchToView('?lubricant=oil&horizon=never');
    expect(view.where).toEqual({ lubricant: ['oil'] });
    expect(view.horizonMiles).toBe(defaultView.horizonMiles);
    expect(notices).toHaveLength(1);
  });

  test('never throws, whatever stands in it', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (search) => {
        expect(viewSchema.safeParse(searchToView(search).view).success).toBe(true);
      }),
    );
  });
});
