// Cases worked by hand from section 2 of the record contract, miles. Unless a case says otherwise a unit
// runs 100 miles a day; a point is [day, miles].
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chosenReadings, type MeterEvent } from '../../../lib/lives/chosen-readings.ts';
import { keptReadings } from '../../../lib/lives/kept-readings.ts';
import { agree, byDay, medianPace, type MeterPoint, type Rules } from '../../../lib/lives/meter-point.ts';
import { defaultChoices } from '../../../shared/choices.ts';

const all: Rules = defaultChoices.mileage;
const none = Object.fromEntries(Object.keys(all).map((rule) => [rule, false])) as Rules;
const without = (...rules: (keyof Rules)[]): Rules => ({
  ...all,
  ...Object.fromEntries(rules.map((rule) => [rule, false])),
});

type Said = readonly [day: number, miles: number, trust?: number];
const points = (said: readonly Said[]): MeterPoint[] => said.map(([day, miles, trust = 2]) => ({ day, miles, trust }));
const judged = (said: readonly Said[], events: readonly MeterEvent[] = [], rules = all) =>
  chosenReadings(points(said), events, rules);
/** [rule, miles used] of every point that is not used as written, by its day. */
const repairs = (said: readonly Said[], events: readonly MeterEvent[] = [], rules = all) =>
  Object.fromEntries(
    judged(said, events, rules).verdicts.flatMap(({ point, rule, used }) =>
      rule === null ? [] : [[point.day, [rule, used]]],
    ),
  );

const steady: Said[] = [
  [0, 50_000],
  [30, 53_000],
  [60, 56_000],
  [90, 59_000],
  [120, 62_000],
];

describe('one bad reading', () => {
  it('leaves readings that agree as they are', () => {
    expect(repairs(steady)).toEqual({});
  });

  it('sets aside the reading that disagrees with most of its neighbours, too low or too high', () => {
    // 51,000 on day 75 is below both readings before it and none after: one goes, not two.
    expect(repairs([...steady, [75, 51_000]])).toEqual({ 75: ['runs-backward', null] });
    // 61,900 on day 75 is above what follows on day 90, and fits what precedes: it is the odd one again.
    expect(repairs([...steady, [75, 61_900]])).toEqual({ 75: ['runs-backward', null] });
  });

  it('says what would have been accepted there', () => {
    const [low] = judged([...steady, [75, 51_000]]).verdicts.filter(({ rule }) => rule);
    // Between day 60 and day 90; 15 days at 1,500 miles a day would allow far more either way.
    expect(low).toMatchObject({ least: 56_000, most: 59_000 });
  });

  it('calls faster than 1,500 miles a day too fast, and exactly 1,500 not', () => {
    expect(
      repairs([
        [0, 0],
        [1, 1_500],
        [2, 1_600],
        [32, 4_600],
        [62, 7_600],
      ]),
    ).toEqual({});
    // 3,001 miles in the two days after day 2; then 30 days for 1,500 miles, so that the late ones go together.
    expect(
      repairs(
        [
          [0, 0],
          [2, 200],
          [4, 3_201],
          [34, 3_400],
          [64, 6_400],
        ],
        [],
        without('digit-slip'),
      ),
    ).toEqual({ 4: ['too-fast', null] });
  });

  it('of two that contradict each other sets aside the one further off the unit’s pace', () => {
    // 60,000 on day 100 lies on the line from 50,000 to 70,000; 58,000 on day 110 does not.
    expect(
      repairs([
        [0, 50_000],
        [100, 60_000],
        [110, 58_000],
        [200, 70_000],
      ]),
    ).toEqual({ 110: ['runs-backward', null] });
  });

  it('of two readings alone believes the one of the unit rather than the one typed on a job', () => {
    expect(
      repairs([
        [0, 0, 2],
        [10, 400_000, 1],
      ]),
    ).toEqual({ 10: ['too-fast', null] });
    expect(
      repairs([
        [0, 400_000, 1],
        [10, 300, 2],
      ]),
    ).toEqual({ 0: ['runs-backward', null] });
  });
});

describe('one digit too many', () => {
  it('is rather one that fingers add: a zero at the end, or a digit struck twice', () => {
    // 57,290 typed with a zero more. 57,500 was to be expected, and 57,200 and 57,900 lie nearer or as near; no digit is doubled.
    expect(repairs([...steady, [75, 572_900]])).toEqual({ 75: ['digit-slip', 57_290] });
    // 58,612 with its 6 struck twice; without the 8 it would be 56,612, without the 5 no reading of this unit.
    expect(repairs([...steady, [75, 586_612]])).toEqual({ 75: ['digit-slip', 58_612] });
  });

  it('takes the digit out that leaves what fits', () => {
    // 577,500 on day 75: without a 7, 57,500, exactly on the line between 56,000 (day 60) and 59,000 (day 90).
    expect(repairs([...steady, [75, 577_500]])).toEqual({ 75: ['digit-slip', 57_500] });
  });

  it('keeps the decimals', () => {
    expect(repairs([...steady, [75, 577_500.4]])).toEqual({ 75: ['digit-slip', 57_500.4] });
  });

  it('at the end of the readings asks for the unit’s own pace', () => {
    // 655,100 on day 150: 30 days at 100 would make 65,000, and half of 3,000 is allowed either way; of
    // 65,100, 65,500 and 65,510 the first lies nearest.
    expect(repairs([...steady, [150, 655_100]])).toEqual({ 150: ['digit-slip', 65_100] });
    // No digit taken out of 980,000 leaves less than 80,000: 98,000, 90,000 and 80,000 lie beyond 66,500.
    expect(repairs([...steady, [150, 980_000]])).toEqual({ 150: ['too-fast', null] });
  });

  it('is not guessed at where the rule is off', () => {
    expect(repairs([...steady, [75, 577_500]], [], without('digit-slip'))).toEqual({ 75: ['too-fast', null] });
  });
});

describe('kilometres written where miles belong', () => {
  // 57,500 miles were to be expected on day 75: 57,500 × 1.609344 = 92,537.28, shown as 92,537 km.
  it('are divided where the unit can only have run the miles', () => {
    expect(repairs([...steady, [75, 92_537]])).toEqual({ 75: ['kilometres', 57_500] });
    // 63,000 on day 130 are 101,388.7 km; 39,389 miles in ten days no unit runs, and 63,000 lies on its pace.
    expect(repairs([...steady, [130, 101_389]])).toEqual({ 130: ['kilometres', 63_000] });
  });

  it('keep the part of a mile where they had a part of a kilometre', () => {
    const used = judged([...steady, [75, 92_537.3]]).verdicts.find(({ point }) => point.day === 75)?.used;
    // 92,537.3 / 1.609344 = 57,500.012
    expect(used).toBeCloseTo(57_500.012, 3);
  });

  it('may stand in several readings in a row, and one after them be as usual', () => {
    // 57,000 on day 70 are 91,732.6 km, 57,500 on day 75 are 92,537.3.
    expect(repairs([...steady, [70, 91_733], [75, 92_537]])).toEqual({
      70: ['kilometres', 57_000],
      75: ['kilometres', 57_500],
    });
  });

  it('are left as written where the unit could have run as many miles', () => {
    // 42,607 miles in 80 days are 533 a day: odd, and possible.
    expect(repairs([...steady, [200, 104_607]])).toEqual({});
  });

  it('are set aside as before where what is left does not fit either', () => {
    // 96,561 km are 60,000 miles, above the 59,000 of day 90.
    expect(repairs([...steady, [75, 96_561]])).toEqual({ 75: ['too-fast', null] });
    // 3,201 km on day 4 are 1,989 miles, between 200 and 3,400, but 1,589 above the 400 expected: 1,400 is two weeks' run.
    const slow: Said[] = [
      [0, 0],
      [2, 200],
      [34, 3_400],
      [64, 6_400],
    ];
    expect(repairs([...slow, [4, 3_201]], [], without('digit-slip'))).toEqual({ 4: ['too-fast', null] });
    // 110,000 km are 68,351 miles: at the end of the readings within 62,000 + 1,000 and half of that either way, or not at all.
    expect(repairs([...steady, [130, 110_000]])).toEqual({ 130: ['too-fast', null] });
  });

  it('are not looked for where the rule is off', () => {
    expect(repairs([...steady, [75, 92_537]], [], without('kilometres'))).toEqual({ 75: ['too-fast', null] });
  });

  it('are shifted with all that is said after a reset', () => {
    // The new meter began at 0 on day 100, when the old one said 60,000.
    const said: Said[] = [...steady.slice(0, 4), [100, 0], [130, 3_000], [400, 30_000], [410, 49_890], [420, 32_000]];
    // 31,000 on day 410 are 49,889.7 km.
    expect(repairs(said, [{ day: 100, before: 60_000, after: 0 }])).toMatchObject({ 410: ['kilometres', 91_000] });
  });
});

describe('a new meter that a reading tells of', () => {
  const after: Said[] = [
    [135, 0],
    [150, 1_500],
    [180, 4_500],
  ];
  it('shifts what follows by what the old one last said', () => {
    // The old meter said 63,500 on day 135; the new began at 0: 1,500 on day 150 are 65,000 miles run.
    const { verdicts, known, gaps, shift } = judged([...steady, ...after], [{ day: 135, before: 63_500, after: 0 }]);
    expect(verdicts.slice(5).map(({ rule, used }) => [rule, used])).toEqual([
      ['reset', 63_500],
      ['reset', 65_000],
      ['reset', 68_000],
    ]);
    expect({ known, gaps, shift }).toEqual({ known: [{ day: 135, miles: 63_500 }], gaps: [], shift: 63_500 });
  });

  it('carries the old one on at the unit’s pace where its last miles are not told, and says that they are estimated', () => {
    // 62,000 on day 120 and 15 days at 100.
    const { verdicts, gaps } = judged([...steady, ...after], [{ day: 135, before: null, after: 0 }]);
    expect(verdicts.slice(5).map(({ used }) => used)).toEqual([63_500, 65_000, 68_000]);
    expect(gaps).toEqual([62_000]);
  });

  it('does not believe last miles that contradict the readings before', () => {
    const { gaps, known } = judged([...steady, ...after], [{ day: 135, before: 6_350, after: 0 }]);
    expect({ gaps, known }).toEqual({ gaps: [62_000], known: [] });
  });

  it('shifts by every change there was', () => {
    const events = [
      { day: 135, before: 63_500, after: 0 },
      { day: 195, before: 6_000, after: 100 },
    ];
    // 63,500 + 6,000 on day 195; 600 on the third meter are 500 more.
    expect(judged([...steady, ...after, [200, 600]], events).verdicts.at(-1)).toMatchObject({
      rule: 'reset',
      used: 70_000,
    });
  });

  it('puts a row of that very day on the meter it lies nearer to', () => {
    const { verdicts } = judged(
      [...steady, [135, 63_490], [135, 3], ...after],
      [{ day: 135, before: 63_500, after: 0 }],
    );
    const ofDay = verdicts.filter(({ point }) => point.day === 135).map(({ point, used }) => [point.miles, used]);
    expect(ofDay).toEqual([
      [63_490, 63_490],
      [0, 63_500],
      [3, 63_503],
    ]);
  });

  it('is an ordinary reading where the rule is off', () => {
    const { verdicts } = judged([...steady, [135, 0]], [{ day: 135, before: 63_500, after: 0 }], without('reset'));
    expect(verdicts.at(-1)).toMatchObject({ rule: 'runs-backward', used: null });
  });
});

describe('a new meter that nobody told of', () => {
  it('is seen by a lasting drop', () => {
    // Days 150, 180, 210 say 1,000, 4,000, 7,000. From day 120 to 150 the unit ran 3,000 at its pace.
    const { verdicts, gaps } = judged([...steady, [150, 1_000], [180, 4_000], [210, 7_000]]);
    expect(verdicts.slice(5).map(({ rule, used }) => [rule, used])).toEqual([
      ['unwritten-reset', 65_000],
      ['unwritten-reset', 68_000],
      ['unwritten-reset', 71_000],
    ]);
    expect(gaps).toEqual([62_000]);
  });

  it('is not made of a single low reading, nor of two when the old miles come back', () => {
    expect(repairs([...steady, [150, 1_000]])).toEqual({ 150: ['runs-backward', null] });
    expect(repairs([...steady, [150, 10_000], [180, 12_000], [210, 71_000], [240, 74_000]])).toEqual({
      150: ['runs-backward', null],
      180: ['runs-backward', null],
    });
  });

  it('is not made of a first reading that disagrees with all that follow', () => {
    expect(
      repairs([
        [0, 110_000],
        [30, 2_000],
        [60, 5_000],
        [90, 8_000],
      ]),
    ).toEqual({ 0: ['runs-backward', null] });
  });

  it('may have run before: a lasting leap of three readings', () => {
    const { verdicts } = judged([...steady, [150, 500_000], [180, 503_000], [210, 506_000]]);
    expect(verdicts.slice(5).map(({ used }) => used)).toEqual([65_000, 68_000, 71_000]);
  });

  it('leaves the readings as bad ones where the rule is off', () => {
    expect(Object.values(repairs([...steady, [150, 1_000], [180, 4_000]], [], without('unwritten-reset')))).toEqual([
      ['runs-backward', null],
      ['runs-backward', null],
    ]);
  });
});

describe('median pace', () => {
  it('is that of half of the days, not of half of the stretches', () => {
    // 10 days at 10 and 10 days at 20, then 100 days at 90 miles a day: 60 of the 120 days ran at most 90.
    expect(
      medianPace(
        points([
          [0, 0],
          [10, 100],
          [20, 300],
          [120, 9_300],
        ]),
      ),
    ).toBe(90);
  });
});

const arbitraryPoints = fc
  .uniqueArray(
    fc.record({
      day: fc.integer({ min: 0, max: 40 }),
      miles: fc.integer({ min: 0, max: 60 }).map((n) => n * 500),
      trust: fc.constantFrom(0, 1, 2),
    }),
    { maxLength: 9, selector: ({ day, miles }) => `${day} ${miles}` },
  )
  .map((list) => [...list].sort(byDay));

describe('any readings', () => {
  it('with every repair off stay as written', () => {
    fc.assert(
      fc.property(arbitraryPoints, (list) => {
        for (const { point, rule, used } of chosenReadings(list, [], none).verdicts)
          expect([rule, used]).toEqual([null, point.miles]);
      }),
    );
  });

  it('are judged alike in whatever order they come', () => {
    fc.assert(
      fc.property(arbitraryPoints, (list) => {
        expect(chosenReadings([...list].reverse(), [], all)).toEqual(chosenReadings(list, [], all));
      }),
    );
  });

  it('lose as few as every choice tried one by one does, and those kept agree', () => {
    const rules = without('unwritten-reset');
    fc.assert(
      fc.property(arbitraryPoints, (list) => {
        const kept = keptReadings(list, rules, medianPace(list)).map(({ at }) => list[at] as MeterPoint);
        const fits = (some: readonly MeterPoint[]) =>
          some.every((point, at) => at === 0 || agree(some[at - 1] as MeterPoint, point, rules));
        expect(fits(kept)).toBe(true);
        let most = 0;
        for (let choice = 0; choice < 2 ** list.length; choice++) {
          const some = list.filter((_, at) => (choice >> at) & 1);
          if (some.length > most && fits(some)) most = some.length;
        }
        expect(kept).toHaveLength(most);
      }),
    );
  });

  it('used never run backward, nor on one meter faster than 1,500 miles a day', () => {
    fc.assert(
      fc.property(arbitraryPoints, (list) => {
        const used = chosenReadings(list, [], all).verdicts.flatMap(({ point, used: miles }) =>
          miles === null ? [] : [{ day: point.day, miles }],
        );
        used.sort((a, b) => a.day - b.day || a.miles - b.miles);
        used.forEach(({ miles }, at) => expect(miles).toBeGreaterThanOrEqual(used[at - 1]?.miles ?? 0));
      }),
    );
  });
});
