import { expect, test } from 'vitest';
import { deviationWords } from '../../lib/questions/words/deviation-words.ts';
import { groupWords, valueWords } from '../../lib/questions/words/group-words.ts';
import { oneIn, percent, percentRange } from '../../lib/questions/words/share-words.ts';
import { counted, ratioText, wording } from '../../lib/questions/words/wording.ts';
import { findingCautions, wheelEndCautions } from '../../shared/cautions.ts';
import { deviationCodes } from '../../shared/deviations.ts';
import { cutColumns } from '../../shared/lives.ts';

test('every deviation of the record contract has its words, and no others', () => {
  expect(Object.keys(deviationWords).sort()).toEqual([...deviationCodes].sort());
});

test('every cut column closes a sentence, known or not', () => {
  for (const column of cutColumns)
    for (const value of ['1', 'unknown']) expect(valueWords(column, value)).toMatch(/^(on|in|with|where|after|of) .+/);
  expect(valueWords('life_number', '2')).toBe('where it was the 2nd at its wheel end');
  expect(valueWords('life_number', '11')).toBe('where it was the 11th at its wheel end');
  expect(valueWords('prior_failures', '0')).toBe('after no earlier failures');
  expect(valueWords('prior_failures', '1')).toBe('after 1 earlier failure');
  expect(groupWords({ by: { role: 'trailer', lubricant: 'oil' } })).toBe('on trailer axles, in oil');
});

test('shares in words: 1 in n within 7 %', () => {
  expect([0.25, 0.098, 0.106, 0.108, 0.33, 0.5, 0.65, 0.05].map((share) => oneIn(share, 'seal'))).toEqual([
    'one seal in four',
    'one seal in ten',
    'one seal in nine',
    'one seal in nine',
    'one seal in three',
    'one seal in two',
    null,
    'one seal in twenty',
  ]);
});

test('percentages keep one digit below ten, two below one, and never round to all or none', () => {
  expect([0, 0.00001, 0.0062, 0.098, 0.0949, 0.251, 0.9951, 1].map((share) => percent(share))).toEqual([
    '0\u00a0%',
    'under 0.01\u00a0%',
    '0.62\u00a0%',
    '10\u00a0%',
    '9.5\u00a0%',
    '25\u00a0%',
    'over 99\u00a0%',
    '100\u00a0%',
  ]);
  expect(percentRange({ lower: 0.048, upper: 0.08 }, 0.062)).toBe('(4.8 to 8.0\u00a0%)');
});

test('distances are said to what can be remembered; kilometres by the exact mile (NIST SP 811, B.8)', () => {
  const { miles, ageRange, rate } = wording();
  expect([7, 1234, 12_345, 74_123, 578_345, 1_243_000].map(miles)).toEqual([
    '7 miles',
    '1,230 miles',
    '12,300 miles',
    '74,000 miles',
    '578,000 miles',
    '1.24 million miles',
  ]);
  expect(ageRange({ lower: 66_000, upper: null })).toBe('(66,000 or more)');
  expect(ageRange({ lower: null, upper: null })).toBe('');
  expect([3, 0.611, 12.345].map(rate)).toEqual(['3.00', '0.611', '12.3']);
  const metric = wording('metric');
  expect(metric.miles(100_000)).toBe('161,000 km');
  expect(metric.rate(1.609344)).toBe('1.00');
  expect(metric.per).toBe('per million wheel-end km');
});

test('counts and ratios', () => {
  expect([0, 1, 1234].map((value) => counted(value, 'leak'))).toEqual(['no leaks', '1 leak', '1,234 leaks']);
  expect([0.934, 1, 2.44, 12.3].map(ratioText)).toEqual(['0.93', '1.0', '2.4', '12']);
});

test('cautions are each said short and in full, once', () => {
  const cautions = [...wheelEndCautions, ...findingCautions];
  expect(new Set(cautions.map(({ name }) => name)).size).toBe(cautions.length);
  for (const { short, long } of cautions) {
    expect(short).toMatch(/\.$/);
    expect(long.length).toBeGreaterThan(short.length);
  }
});
