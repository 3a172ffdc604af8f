import { describe, expect, test } from 'vitest';
import type { Comparison } from '../../lib/questions/comparison.ts';
import { componentWords } from '../../lib/questions/words/component-words.ts';
import { contaminationAnswer } from '../../lib/questions/words/contamination-answer.ts';
import type { Answer } from '../../lib/questions/words/emphasised.ts';
import { rateAnswer, type RateAnswer } from '../../lib/questions/words/rate-answer.ts';
import { sealLifeAnswer } from '../../lib/questions/words/seal-life-answer.ts';
import type { SealLifeAnswer } from '../../lib/questions/words/seal-life-asked.ts';
import { wording } from '../../lib/questions/words/wording.ts';
import type { Estimate, Group } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';

// Golden sentences: what a reader sees of findings made up for each turn a sentence can take.
type Numbers = readonly [value: number | null, lower?: number | null, upper?: number | null];

const estimates = (numbers: Readonly<Record<string, Numbers>>): Record<string, Estimate> =>
  Object.fromEntries(
    Object.entries(numbers).map(([name, [value, lower = null, upper = null]]) => [
      name,
      { value, lower, upper, level: 0.95, unit: '', method: '', ...(value === null ? { reason: 'none' } : {}) },
    ]),
  );

const group = (
  label: string,
  by: Group['by'],
  failures: number,
  numbers: Readonly<Record<string, Numbers>>,
  counts: Record<string, number> = {},
): Group => ({
  ...{ label, by, lives: failures * 10 + 12, failures, miles: 3_100_000, firmness: 'fair', counts },
  estimates: estimates(numbers),
});

const comparison = (change: Partial<Comparison> = {}): Comparison => ({
  ...{ compared: 0, reference: 1, pairs: 1, pValue: 0.0004, rawPValue: 0.0004 },
  ratio: { value: 2.4, lower: 1.7, upper: 3.3 },
  ...change,
});

/** Every emphasised stretch stands in the answer, as the page needs it to. */
function said({ answer, emphasis }: Answer): string {
  for (const stretch of emphasis) expect(answer).toContain(stretch);
  expect(answer).not.toMatch(/\*|undefined|NaN| {2}|caused/);
  return answer;
}

describe('how long', () => {
  const say = (groups: Group[], change: Partial<SealLifeAnswer> = {}, view: Partial<View> = {}) =>
    said(
      sealLifeAnswer({
        ...{ view: viewSchema.parse(view), words: wording(), thing: componentWords.seal, groups },
        ...{ comparison: null, worstFirst: groups.map((_, index) => index), oneShape: true },
        ...change,
      }),
    );
  const tenth = { b10Life: [74_123, 66_000, 83_000], weibullShape: [1.6, 1.5, 1.7] } as const;

  test('one in ten, and wear', () => {
    expect(say([group('all', {}, 253, tenth)])).toBe(
      'One seal in ten has leaked by 74,000 miles (66,000 to 83,000), from 253 leaks in 2,542 lives. They wear out: the risk rises with miles (Weibull shape 1.6, 1.5 to 1.7).',
    );
  });

  test.each([
    [[0.82, 0.74, 0.91], 'They fail early: the risk falls with miles (Weibull shape 0.82, 0.74 to 0.91).'],
    [[1.02, 0.95, 1.1], 'Whether they fail early or wear out cannot be told (Weibull shape 1.0, 0.95 to 1.1).'],
    [[null], 'Whether they fail early or wear out cannot be told.'],
  ] as const)('shape %j', (weibullShape, sentence) => {
    expect(say([group('all', {}, 253, { ...tenth, weibullShape: weibullShape })])).toContain(sentence);
  });

  test('no single shape', () => {
    expect(say([group('all', {}, 253, tenth)], { oneShape: false })).toContain('No single Weibull shape fits');
  });

  test('a curve that starts late says of whom it tells; bearings fail, they do not leak', () => {
    const late = group('all', {}, 53, tenth, { curveFromMiles: 12_000 });
    expect(say([late], { thing: componentWords.bearing })).toMatch(
      /^Of bearing sets that reached 12,000 miles, one bearing set in ten has failed by 74,000 miles \(66,000 to 83,000\), from 53 failures in 542 lives\./,
    );
  });

  test('one in ten not reached', () => {
    const share = { b10Life: [null], failedByHorizonHadNoneBeenRenewed: [0.062, 0.048, 0.08] } as const;
    expect(say([group('all', {}, 31, share)])).toBe(
      '6.2\u00a0% of seals have leaked by 100,000 miles (4.8 to 8.0\u00a0%), from 31 leaks in 322 lives; one in ten is not reached.',
    );
  });

  test('not followed for long enough', () => {
    const short = {
      b10Life: [null],
      failedByHorizonHadNoneBeenRenewed: [null],
      failuresPerMillionMiles: [1.94, 0.97, 3.47],
    } as const;
    expect(say([group('all', {}, 6, short)])).toBe(
      'It cannot be told when one seal in ten has leaked: too few are watched for long enough. Seen are 6 leaks in 72 lives, 1.94 per million wheel-end miles (0.970 to 3.47).',
    );
  });

  test('too few, one, and none', () => {
    const rate = { failuresPerMillionMiles: [0.968, 0.2, 2.83] } as const;
    expect(say([group('all', {}, 3, rate)])).toBe(
      'Too few to say: 3 leaks among 42 seals in 3.1 million wheel-end miles, 0.968 per million wheel-end miles (0.200 to 2.83).',
    );
    expect(say([group('all', {}, 1, rate)])).toContain('1 leak among 22 seals');
    expect(say([group('all', {}, 0, { failuresPerMillionMiles: [0, 0, 1.19] })])).toBe(
      'No leak among 12 seals in 3.1 million wheel-end miles. That still allows one every 840,000 miles.',
    );
    expect(say([{ ...group('all', {}, 0, rate), lives: 0 }])).toBe('No lives match this choice.');
  });

  const share = (...numbers: [number, number, number]) => ({
    failedByHorizonHadNoneBeenRenewed: numbers,
    b10Life: [null] as Numbers,
  });
  const cut = (column: string) => ({ by: [column] });

  test('a deviation, with it and without it', () => {
    const groups = [
      group('yes', { dev_nut_backed_off: 'yes' }, 41, share(0.251, 0.19, 0.324)),
      group('no', { dev_nut_backed_off: 'no' }, 212, share(0.098, 0.081, 0.117)),
      group('unknown', { dev_nut_backed_off: 'unknown' }, 88, share(0.129, 0.1, 0.16)),
    ];
    expect(say(groups, { comparison: comparison() }, cut('dev_nut_backed_off'))).toBe(
      'Where the nut was backed off, one seal in four had leaked by 100,000 miles (19 to 32\u00a0%); where it was not, one in ten (8 to 12\u00a0%). That is more than chance (p\u00a0<\u00a00.001), told by 41 and 212 leaks.',
    );
  });

  test('a deviation whose shares no simple words fit, and chance', () => {
    const groups = [
      group('yes', { dev_seal_cocked: 'yes' }, 41, share(0.69, 0.56, 0.81)),
      group('no', { dev_seal_cocked: 'no' }, 212, share(0.027, 0.02, 0.035)),
    ];
    expect(say(groups, { comparison: comparison({ pValue: 0.21 }) }, cut('dev_seal_cocked'))).toBe(
      'Where the seal was cocked or not seated, 69\u00a0% of seals had leaked by 100,000 miles (56 to 81\u00a0%); where it was seated, 2.7\u00a0% (2.0 to 3.5\u00a0%). That may be chance (p\u00a0=\u00a00.21), told by 41 and 212 leaks.',
    );
  });

  test('too few with the deviation, or nobody', () => {
    const [yes, no] = [
      group('yes', { dev_spacer_missing: 'yes' }, 3, {}),
      group('no', { dev_spacer_missing: 'no' }, 212, {}),
    ];
    expect(say([yes, no], {}, cut('dev_spacer_missing'))).toBe(
      'Too few to compare: 3 leaks among 42 seals where the spacer was left out and 212 leaks among 2,132 seals where it was fitted.',
    );
    expect(say([no], {}, cut('dev_spacer_missing'))).toMatch(/None is recorded with it\.$/);
  });

  const roles = [
    group('steer', { role: 'steer' }, 199, { b10Life: [165_000, 140_000, null] }),
    group('drive', { role: 'drive' }, 380, { b10Life: [127_000, 118_000, 139_000] }),
    group('trailer', { role: 'trailer' }, 1050, { b10Life: [74_000, 66_000, 83_000] }),
  ];

  test('groups from the shortest life to the longest', () => {
    const compared = comparison({ compared: 2, reference: 0, pairs: 3 });
    expect(say(roles, { comparison: compared, worstFirst: [2, 1, 0] }, cut('role'))).toBe(
      'One seal in ten has leaked by 74,000 miles on trailer axles (66,000 to 83,000), by 127,000 miles on drive axles (118,000 to 139,000) and by 165,000 miles on steer axles (140,000 or more). That is more than chance (p\u00a0<\u00a00.001), told by 1,050, 380 and 199 leaks.',
    );
  });

  test('of more than four groups the ends are said', () => {
    const shops = ['A', 'B', 'C', 'D', 'E'].map((shop, place) =>
      group(shop, { shop }, 20 + place, { b10Life: [50_000 + 10_000 * place, 40_000, 90_000] }),
    );
    const compared = comparison({
      compared: 0,
      reference: 4,
      pairs: 10,
      pValue: 0.6,
      ratio: { value: 1, lower: 0.9, upper: 1.1 },
    });
    expect(say(shops, { comparison: compared }, cut('shop'))).toBe(
      'One seal in ten has leaked by 50,000 miles where installed by A (40,000 to 90,000) and by 90,000 miles where installed by E (40,000 to 90,000); three groups lie between. That is no difference worth the name (p\u00a0=\u00a00.6), told by 20 and 24 leaks.',
    );
  });

  test('kilometres', () => {
    expect(say([group('all', {}, 253, tenth)], { words: wording('metric') })).toContain(
      '119,000 km (106,000 to 134,000)',
    );
  });
});

describe('how often', () => {
  const what = { event: 'failure', happens: 'wheel ends fail', happened: 'wheel ends failed' };
  const rate = 'failuresPerMillionMiles';
  const say = (groups: Group[], view: Partial<View> = {}, compared: Comparison | null = null) =>
    said(
      rateAnswer({
        ...{ view: viewSchema.parse(view), words: wording(), what, groups, comparison: compared, rate },
        events: groups.map(({ failures }) => failures),
      }),
    );

  test('one group', () => {
    expect(say([{ ...group('all', {}, 1629, { [rate]: [1.731, 1.65, 1.82] }), miles: 941_000_000 }])).toBe(
      '1.73 failures per million wheel-end miles (1.65 to 1.82): one every 578,000 miles, from 1,629 failures in 941 million wheel-end miles.',
    );
  });

  test('one mode only; too few; none; no lives', () => {
    expect(say([group('all', {}, 3, { [rate]: [0.968, 0.2, 2.83] })], { mode: 'hot-hub' })).toBe(
      'Too few to say: 3 failures in 3.1 million wheel-end miles, counting only hot hubs, 0.968 per million wheel-end miles (0.200 to 2.83).',
    );
    expect(say([group('all', {}, 0, { [rate]: [0, 0, 1.19] })])).toBe(
      'No failure in 3.1 million wheel-end miles. That still allows one every 840,000 miles.',
    );
    expect(say([{ ...group('all', {}, 0, {}), lives: 0 }])).toBe('No lives match this choice.');
  });

  const deviation = [
    group('yes', { dev_underfilled: 'yes' }, 41, { [rate]: [3.1, 2.2, 4.2] }),
    group('no', { dev_underfilled: 'no' }, 212, { [rate]: [1.3, 1.1, 1.5] }),
  ];

  test('a deviation', () => {
    expect(say(deviation, { by: ['dev_underfilled'] }, comparison())).toBe(
      'Wheel ends failed 2.4 times as often (1.7 to 3.3) where the hub was filled too low as where it was not: 3.10 and 1.30 per million wheel-end miles. That is more than chance (p\u00a0<\u00a00.001), told by 41 and 212 failures.',
    );
  });

  test('groups by rate, the highest first', () => {
    const groups = [
      group('oil', { lubricant: 'oil' }, 50, { [rate]: [1, 0.8, 1.3] }),
      group('packed', { lubricant: 'packed' }, 90, { [rate]: [2, 1.6, 2.5] }),
      group('unknown', { lubricant: 'unknown' }, 900, { [rate]: [9, 8, 10] }),
    ];
    expect(say(groups, { by: ['lubricant'] }, comparison({ compared: 1, reference: 0 }))).toBe(
      'Per million wheel-end miles, wheel ends fail 2.00 times in packed grease (1.60 to 2.50) and 1.00 in oil (0.800 to 1.30). That is more than chance (p\u00a0<\u00a00.001), told by 90 and 50 failures.',
    );
  });

  test('too few to compare gives counts and bounds', () => {
    const groups = [
      group('yes', { dev_underfilled: 'yes' }, 0, { [rate]: [0, 0, 3.85] }),
      group('no', { dev_underfilled: 'no' }, 1, { [rate]: [0.3, 0.01, 1.8] }),
    ];
    expect(say(groups, { by: ['dev_underfilled'] })).toBe(
      'Too few to compare: no failures where the hub was filled too low (at most 3.85) and 1 failure where it was not (at most 1.80); bounds per million wheel-end miles.',
    );
  });
});

describe('where soaked', () => {
  const what = { event: 'soaked lining', happens: 'linings are soaked', happened: 'linings were soaked' };
  const rate = 'contaminatedPerMillionMiles';
  const answer = (groups: Group[], events: number[], view: Partial<View> = {}, compared: Comparison | null = null) => {
    const asked: RateAnswer = {
      view: viewSchema.parse(view),
      words: wording(),
      what,
      groups,
      comparison: compared,
      rate,
      events,
    };
    return contaminationAnswer(asked);
  };
  const say = (...asked: Parameters<typeof answer>) => said(answer(...asked));
  const soaked = (label: string, by: Group['by'], told: number, numbers: [number, number, number]) =>
    group(
      label,
      by,
      100,
      { [rate]: [1.1, 1, 1.2], contaminatedShareOfLeaks: numbers },
      { leaksSoaked: told * numbers[0], leaksClean: told * (1 - numbers[0]) },
    );

  test('one group', () => {
    expect(say([soaked('all', {}, 1084, [0.38, 0.34, 0.42])], [412])).toBe(
      '38 of 100 seal leaks reached the lining (34 to 42), of 1,084 leaks that tell. 1.10 soaked linings per million wheel-end miles (1.00 to 1.20), 412 soaked linings in all.',
    );
  });

  test('too few leaks tell: the rate alone', () => {
    expect(say([soaked('all', {}, 4, [0.5, 0.1, 0.9])], [412])).toMatch(
      /^1\.10 soaked linings per million wheel-end miles/,
    );
  });

  test('two lubricants', () => {
    const groups = [
      soaked('oil', { lubricant: 'oil' }, 100, [0.38, 0.3, 0.5]),
      soaked('semi-fluid', { lubricant: 'semi-fluid' }, 100, [0.21, 0.1, 0.3]),
    ];
    expect(answer(groups, [38, 21], { by: ['lubricant'] }, comparison()).further).toMatch(
      /^Of seal leaks that tell, 38 of 100 in oil \(30 to 50\) and 21 of 100 in semi-fluid grease \(10 to 30\) reached the lining\.$/,
    );
  });
});
