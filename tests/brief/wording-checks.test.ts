import { describe, expect, test } from 'vitest';
import { briefWarnings, wordingWarnings } from '../../lib/brief/wording-checks.ts';
import { proceduresSchema, type Limit, type LimitName } from '../../shared/procedure.ts';
import shipped from '../../data/default-procedure.json' with { type: 'json' };
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
      approvals: [{ role: 'Safety', decision: 'with-conditions', conditions: 'once it is proven' }],
      photos: [{ id: 'p', name: 'hub.png', caption: 'proves it', picture: 'data:image/png;base64,AAAA' }],
    });
    const warnings = briefWarnings(brief, []);
    expect(warnings.map(({ where }) => where)).toEqual([
      ...['Title', 'What is expected', 'Photo hub.png', 'Conditions of Safety'],
    ]);
    for (const { instead } of warnings) expect(instead.length).toBeGreaterThan(30);
  });
});

describe('a limit called a specification', () => {
  /** The shipped procedure, every limit of one name out of `source`. */
  const procedures = (sources: Partial<Record<LimitName, string>>) =>
    proceduresSchema.parse([shipped]).map((procedure) => ({
      ...procedure,
      parts: procedure.parts.map((part) => {
        const limits = Object.entries(part.limits).map(([name, limit]): [string, Limit] => [
          name,
          limit && { ...limit, source: sources[name as LimitName] ?? limit.source },
        ]);
        return { ...part, limits: Object.fromEntries(limits) as typeof part.limits };
      }),
    }));
  const makers = 'Component maker, service manual 12-3, 2024';
  const said = (text: string, sources: Partial<Record<LimitName, string>> = {}) =>
    wordingWarnings('Here', 'here', text, procedures(sources)).map((warning) => warning.found);

  // The maker governs common practice: that does not make a check value the maker's own.
  test.each([
    ['The spec is 0.001 to 0.005 in.', 'spec'],
    ['Inner torque out of specification in 14 jobs.', 'out of specification'],
    ['Torque the outer nut to the specified value.', 'specified'],
    ['Torqued to-spec.', 'to-spec'],
  ])('is a check value where its source is common practice: %s', (text, stretch) =>
    expect(said(text)).toContain(stretch),
  );

  test('is one where the maker is the source of just that limit', () => {
    expect(said('End play within specification.', { endPlayIn: makers })).toEqual([]);
    expect(said('Inner torque within specification.', { endPlayIn: makers })).toEqual(['within specification']);
    const all = { innerTorqueFtLb: makers, outerTorqueFtLb: makers, endPlayIn: makers };
    expect(said('All within specification.', all)).toEqual([]);
  });

  test('is none where the procedure has no limit, or none is known', () =>
    expect(wordingWarnings('Here', 'here', 'To spec.', []).map(({ instead }) => instead)).toEqual([
      expect.stringMatching(/holds no limit for it\. Write “check value”/),
    ]));

  test('leaves alone what only sounds like it', () =>
    expect(said('A specific inspection of the special tool.')).toEqual([]));
});
