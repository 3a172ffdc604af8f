// Renumbered and transferred units, worked by hand from the record contract (former_ids, section 1). Days are small whole numbers.
import { describe, expect, it } from 'vitest';
import { resolvedFormerIds, type NumberedUnit } from '../../lib/lives/former-ids.ts';

let row = 0;
const unit = (unitId: string, more: Partial<NumberedUnit> = {}): NumberedUnit => ({
  row: row++,
  unitId,
  formerIds: [],
  inService: null,
  out: null,
  outReason: null,
  ...more,
});
const alias = (name: string, unitId: string, from: number | null = null, until: number | null = null) => ({
  name,
  unitId,
  from,
  until,
});

describe('former numbers', () => {
  it('put rows with the unit of today, through a chain of any length', () => {
    const units = [unit('9', { formerIds: ['8'] }), unit('8', { formerIds: ['7'] })];
    const { aliases, vehicles, undecided } = resolvedFormerIds(units);
    expect([...aliases].sort((a, b) => (a.name < b.name ? -1 : 1))).toEqual([alias('7', '9'), alias('8', '9')]);
    // The row of 8 is the same vehicle before it was renumbered.
    expect(vehicles).toEqual([{ unitId: '9', rows: [units[0]!.row, units[1]!.row].sort() }]);
    expect(undecided).toEqual([]);
  });

  it('join the rows of a vehicle handed on within the fleet, the first in service first', () => {
    const late = unit('B2', { formerIds: ['A1'], inService: 500 });
    const first = unit('A1', { inService: 100, out: 500, outReason: 'transferred' });
    expect(resolvedFormerIds([late, first]).vehicles).toEqual([{ unitId: 'B2', rows: [first.row, late.row] }]);
  });

  it('leave a number that another vehicle bears later to that vehicle from its first day on', () => {
    const units = [unit('9', { formerIds: ['8'], inService: 100 }), unit('8', { inService: 700 })];
    const { aliases, vehicles } = resolvedFormerIds(units);
    expect(aliases).toEqual([alias('8', '9', null, 700), alias('8', '8', 700)]);
    expect(vehicles).toEqual([]);
  });

  it('part a number that two vehicles name by their days in service', () => {
    const units = [unit('9', { formerIds: ['5'], inService: 800 }), unit('6', { formerIds: ['5'], inService: 200 })];
    expect(resolvedFormerIds(units).aliases).toEqual([alias('5', '6', null, 800), alias('5', '9', 800)]);
  });

  it('decide nothing where the days do not tell, and say so', () => {
    const twice = resolvedFormerIds([unit('9', { formerIds: ['5'] }), unit('6', { formerIds: ['5'], inService: 200 })]);
    expect(twice.aliases).toEqual([]);
    expect(twice.undecided).toEqual([
      'a number held by several units; each has an in_service_date of its own, which parts their rows; 5: 6, 9',
    ]);
    // A unit that was sold was not renumbered; without its day in service, whose rows are 8's is not told.
    const sold = resolvedFormerIds([unit('9', { formerIds: ['8'], inService: 300 }), unit('8', { outReason: 'sold' })]);
    expect(sold.aliases).toEqual([]);
    expect(sold.undecided).toHaveLength(1);
  });

  it('refuse a circle and name its units, and still follow the others', () => {
    const { aliases, undecided } = resolvedFormerIds([
      unit('1', { formerIds: ['2'] }),
      unit('2', { formerIds: ['3'] }),
      unit('3', { formerIds: ['1'] }),
      unit('9', { formerIds: ['8'] }),
    ]);
    expect(undecided).toEqual(['former_ids lead in a circle; each unit has its own former numbers; 1, 2, 3']);
    expect(aliases).toEqual([alias('8', '9')]);
  });

  it('pass over a unit that names itself', () => {
    const { aliases, undecided } = resolvedFormerIds([unit('1', { formerIds: ['1'] })]);
    expect({ aliases, undecided: undecided.length }).toEqual({ aliases: [], undecided: 1 });
  });
});
