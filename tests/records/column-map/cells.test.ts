import { describe, expect, it } from 'vitest';
import { cellUnitFacts, cellUnits, inside } from '../../../shared/units.ts';
import { wordChange } from '../../../lib/records/column-map/cell-words.ts';
import { readDate } from '../../../lib/records/column-map/date-text.ts';
import { readNumber, unitNamed } from '../../../lib/records/column-map/number-text.ts';
import { rowIdentity } from '../../../lib/records/column-map/row-identity.ts';

describe('a date', () => {
  const read = (text: string, order?: 'ymd' | 'dmy' | 'mdy', serials?: '1900' | '1904') => {
    const found = readDate(text, { ...(order ? { order } : {}), ...(serials ? { serials } : {}) });
    return typeof found === 'string' ? found : found.day;
  };

  it.each([
    ['2024-03-01', undefined, '2024-03-01'],
    ['2024/3/1', undefined, '2024-03-01'],
    ['2024.03.01 14:05:59', undefined, '2024-03-01'],
    ['2024-03-01T14:05:59.123Z', undefined, '2024-03-01'],
    ['2024-03-01T14:05:59+02:00', undefined, '2024-03-01'],
    ['20240301', undefined, '2024-03-01'],
    ['01/03/2024', 'dmy', '2024-03-01'],
    ['1.3.24', 'dmy', '2024-03-01'],
    ['01-03-2024 7:05 AM', 'dmy', '2024-03-01'],
    ['03/01/2024', 'mdy', '2024-03-01'],
    ['3/1/24 12:30 pm', 'mdy', '2024-03-01'],
    ['24/03/01', 'ymd', '2024-03-01'],
    ['01032024', 'dmy', '2024-03-01'],
    ['1-Mar-24', undefined, '2024-03-01'],
    ['Mar 1, 2024', undefined, '2024-03-01'],
    ['Fri, March 1st, 2024', undefined, '2024-03-01'],
    ['1. März 2024', undefined, '2024-03-01'],
    ['1 mars 2024', undefined, '2024-03-01'],
    ['5 juillet 2024', undefined, '2024-07-05'],
    ['1 de marzo de 2024', undefined, '2024-03-01'],
    ['2024 Dec 31', undefined, '2024-12-31'],
    ['12/31/49', 'mdy', '2049-12-31'],
    ['12/31/50', 'mdy', '1950-12-31'],
  ] as const)('%s in the order %s is %s', (text, order, day) => expect(read(text, order)).toBe(day));

  // ECMA-376 part 1, 18.17.4.1: in the 1900 system serial 1 is 1900-01-01 and 60 the 29th of February
  // that never was; its own examples are 2958465 = 9999-12-31 and, in the 1904 system, 0 = 1904-01-01.
  // 45352 − 61 days after 1900-03-01 (serial 61) is 2024-03-01.
  it.each([
    ['45352', '1900', '2024-03-01'],
    ['45352.75', '1900', '2024-03-01'],
    ['43890', '1904', '2024-03-01'],
  ] as const)('the serial number %s of %s is %s', (text, serials, day) =>
    expect(read(text, undefined, serials)).toBe(day),
  );

  it.each([
    ['01/03/2024', undefined, 'order of day and month'],
    ['03/25/2024', 'dmy', 'no day of the calendar, read as day, month, year'],
    ['29/02/2023', 'dmy', 'no day of the calendar'],
    ['31.12.9999', 'dmy', 'a year outside'],
    ['45352', 'dmy', 'not a date'],
    ['soon', 'dmy', 'not a date'],
    ['12/2024', 'dmy', 'not a date'],
    ['1 Foo 2024', 'dmy', 'not a date'],
  ] as const)('%s in the order %s is none', (text, order, why) => expect(read(text, order)).toContain(why));
});

describe('a number', () => {
  const read = (text: string, decimal: 'point' | 'comma' = 'point', unit?: (typeof cellUnits)[number]) =>
    readNumber(text, { decimal, quantity: unit ? cellUnitFacts[unit].quantity : 'miles', unit });

  it.each([
    ['123456', 'point', 123456],
    ['123,456.5', 'point', 123456.5],
    ['1 234 567', 'point', 1234567],
    ["12'345.5", 'point', 12345.5],
    ['.003', 'point', 0.003],
    ['123.456,5', 'comma', 123456.5],
    ['0,003', 'comma', 0.003],
    ['12\u00a0345', 'comma', 12345],
    ['-5', 'point', -5],
    ['1.2E3', 'point', 1200],
    ['$1,250.00', 'point', 1250],
    ['99,90 €', 'comma', 99.9],
  ] as const)('%s with a decimal %s is %d', (text, decimal, value) => expect(read(text, decimal)).toBe(value));

  it.each([
    ['12,34', 'point'],
    ['1.5.2', 'point'],
    ['1,234,56', 'point'],
    ['0.003-0.005', 'point'],
    ['about 5', 'point'],
    ['1.234.5', 'comma'],
    ['12 mph', 'point'],
    ['5 N·m', 'point'],
    ['-', 'point'],
  ] as const)('%s with a decimal %s is none', (text, decimal) => expect(typeof read(text, decimal)).toBe('string'));

  it('is taken in the unit behind it before that of its column', () => {
    expect(read('100 km', 'point', 'mi')).toBeCloseTo(100 / 1.609344, 9);
    expect(read('0.003"', 'point', 'mm')).toBe(0.003);
    expect(read('4 thou', 'point', 'in')).toBe(0.004);
  });
});

describe('units', () => {
  // NIST SP 811, appendix B.8: 1 mi = 1.609344 km, 1 in = 25.4 mm exactly; 1 lbf·ft = 1.355818 N·m,
  // 1 lbf·in = 0.1129848 N·m, 1 kgf·m = 9.80665 N·m.
  it.each([
    [1.609344, 'km', 1],
    [25.4, 'mm', 1],
    [1000, 'thousandths', 1],
    [1.3558179483314004, 'N·m', 1],
    [12, 'lbf·in', 1],
    [90, 'min', 1.5],
    [2, 'd', 48],
    [0.127, 'mm', 0.005],
  ] as const)('%d %s are exactly %d inside', (value, unit, expected) => expect(inside(value, unit)).toBe(expected));

  it('kgf·m and N·m agree by standard gravity', () =>
    expect(inside(1, 'kgf·m')).toBeCloseTo(9.80665 / 1.3558179483314004, 10));

  it.each([
    ['ft-lbs', 'lbf·ft'],
    ['FT.LB', 'lbf·ft'],
    ['lb ft', 'lbf·ft'],
    ['Nm', 'N·m'],
    ['in-lb', 'lbf·in'],
    ['Miles', 'mi'],
    ['KMS', 'km'],
    ['inches', 'in'],
    ['mils', 'thousandths'],
    ['hrs', 'h'],
  ])('%s is %s', (text, unit) => expect(unitNamed(text)).toBe(unit));

  it('every unit reads as itself', () => {
    for (const unit of cellUnits) expect(unitNamed(unit)).toBe(unit);
  });
});

describe('words', () => {
  const change = wordChange({ LH: 'left', '*hub cap*': 'gasket-hubcap', '*seal*': 'seal-unknown', 'n/a': '' });
  it.each([
    [' lh ', 'left'],
    ['RR Hub  Cap seal leaking', 'gasket-hubcap'],
    ['wheel seal', 'seal-unknown'],
    ['N/A', ''],
    ['bearing', undefined],
  ])('%j means %j', (text, meant) => expect(change(text)).toBe(meant));
});

describe('an id made of a row', () => {
  it('is the same for the same cells and no other', () => {
    const ids = new Set<string>();
    for (let a = 0; a < 200; a++) for (let b = 0; b < 200; b++) ids.add(rowIdentity('north', [`u${a}`, `${b}`]));
    expect(ids.size).toBe(40_000);
    expect(rowIdentity('north', ['1', '23'])).not.toBe(rowIdentity('north', ['12', '3']));
    expect(rowIdentity('north', ['1', '23'])).toBe(rowIdentity('north', ['1', '23']));
    expect(rowIdentity('north', ['1'])).not.toBe(rowIdentity('south', ['1']));
  });
});
