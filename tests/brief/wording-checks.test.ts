import { describe, expect, test } from 'vitest';
import { briefWarnings, wordingWarnings } from '../../lib/brief/wording-checks.ts';
import { briefSchema } from '../../shared/brief.ts';

const found = (text: string) => wordingWarnings('Here', 'here', text).map((warning) => warning.found.toLowerCase());

describe('wording that says more than records can', () => {
  test.each([
    ['This proves it', 'proves'],
    ['It is proven.', 'proven'],
    ['The leak was caused by a dry spindle', 'was caused by'],
    ['A dry spindle causes leaks', 'causes'],
    ['the root cause of leaks', 'root cause'],
    ['Root-cause analysis', 'root-cause'],
    ['Leaks fell by 40 %.', '40 %'],
    ['Leaks fell by 40\u00a0% and more', '40\u00a0%'],
    ['40 percent fewer', '40 percent'],
    ['The technician forgot the spacer', 'technician forgot'],
    ['the shop was at fault', 'at fault'],
    ['through human error', 'human error'],
    ['Such hubs are safe', 'safe'],
    ['Cleared for service', 'cleared'],
    ['Greased hubs do not leak', 'do not leak'],
  ])('%s', (text, stretch) => expect(found(text)).toContain(stretch));

  test.each([
    'Leaks go with a spindle that was not dressed: 38 % (36 to 41), 2020 to 2024.',
    'The share lay between 12 % and 19 % in 2023.',
    'Improve the approval; safety comes first; because the vent was blocked.',
    'The step was recorded as left out in 14 of 80 jobs.',
    '',
  ])('leaves alone: %s', (text) => expect(found(text)).toEqual([]));

  test('says where, and what to write instead', () => {
    const brief = briefSchema.parse({
      ...{ brief: 1, title: 'The root cause', words: { effect: '30 % fewer' }, entries: [] },
      photos: [{ id: 'p', name: 'hub.png', caption: 'proves it', picture: 'data:image/png;base64,AAAA' }],
    });
    const warnings = briefWarnings(brief);
    expect(warnings.map(({ where }) => where)).toEqual(['Title', 'What is expected', 'Photo hub.png']);
    for (const { instead } of warnings) expect(instead.length).toBeGreaterThan(30);
  });
});
