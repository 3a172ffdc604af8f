import { describe, expect, it } from 'vitest';
import { serialDay, serialTime, shownAs } from '../../lib/records/number-format.ts';

describe('a number format shows', () => {
  // Ids from the table of ECMA-376 part 1, 18.8.30; codes written by its rules, 18.8.31.
  it.each([
    [0, undefined, 'number'],
    [2, undefined, 'number'],
    [9, undefined, 'number'],
    [11, undefined, 'number'],
    [14, undefined, 'day'],
    [17, undefined, 'day'],
    [18, undefined, 'time'],
    [22, undefined, 'day'],
    [46, undefined, 'time'],
    [49, undefined, 'number'],
    [164, 'General', 'number'],
    [164, 'yyyy\\-mm\\-dd;@', 'day'],
    [164, '[$-407]d/\\ mmmm\\ yyyy;@', 'day'],
    [164, 'mmm\\-yy', 'day'],
    [164, 'mmmm', 'day'],
    [164, '[$-411]ge.m.d', 'day'],
    [164, 'yyyy\\-mm\\-dd\\ hh:mm:ss.000', 'day'],
    [164, 'hh:mm', 'time'],
    [164, '[h]:mm:ss', 'time'],
    [164, '[mm]:ss.0', 'time'],
    [164, 'h:mm\\ AM/PM', 'time'],
    [164, '#,##0.00\\ "days"', 'number'],
    [164, '0.00E+00', 'number'],
    [164, '[Red]#,##0;[Blue]\\-#,##0', 'number'],
    [164, '_-* #,##0.00\\ [$kr-41D]_-', 'number'],
    [164, '"Order "0', 'number'],
    [164, '# ?/?', 'number'],
    [164, '@', 'number'],
  ])('%i %s as a %s', (id, code, shown) => {
    expect(shownAs(id, code)).toBe(shown);
  });

  it('zeros in front where it is made of zeros', () => {
    expect(shownAs(164, '00000')).toEqual({ digits: 5 });
    expect(shownAs(164, '0')).toBe('number');
  });
});

describe('a serial number is the day', () => {
  // 5 July 1998 is 35981 counted from 1900 and 34519 counted from 1904: the maker's note on the two systems.
  it.each([
    [35_981, false, '1998-07-05'],
    [34_519, true, '1998-07-05'],
    [1, false, '1900-01-01'],
    [59, false, '1900-02-28'],
    [61, false, '1900-03-01'],
    [0, true, '1904-01-01'],
    [45_351.75, false, '2024-02-29'],
    [45_351.99999999, false, '2024-03-01'],
    [2_958_465, false, '9999-12-31'],
    [2_958_466, false, null],
    [-1, false, null],
  ])('%d of %s', (serial, from1904, day) => {
    expect(serialDay(serial, from1904)).toBe(day);
  });
});

it.each([
  [0.5, '12:00:00'],
  [1.5, '36:00:00'],
  [1 / 86_400, '0:00:01'],
  [-0.25, '-6:00:00'],
])('%d of a day is the time %s', (serial, time) => {
  expect(serialTime(serial)).toBe(time);
});
