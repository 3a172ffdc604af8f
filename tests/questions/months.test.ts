// Ages by the calendar, worked by hand or held to what the same lives say in miles.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { viewSchema } from '../../shared/view.ts';
import { fleet, many, type Life } from './fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

/** A thousand miles a month, so that both axes tell of one and the same lives. */
const both = (life: { entry_miles?: number; exit_miles: number; state: string; mode?: string }): Life => {
  const { entry_miles = 0, exit_miles } = life;
  const months = { entry_months: entry_miles / 1_000, exit_months: exit_miles / 1_000 };
  return { ...life, entry_miles, ...months, exposure_months: (exit_miles - entry_miles) / 1_000 };
};
const seals = many(60, (at) =>
  both({
    entry_miles: at % 5 === 4 ? 4_000 : 0,
    exit_miles: 5_000 + at * 1_250,
    ...(at % 3 === 0 ? { state: 'failed', mode: 'seal-inner' } : { state: 'running' }),
  }),
);

describe('life curves by months', () => {
  it('say of lives what they say by miles, an age for an age', async () => {
    const source = await fleet(engine, seals);
    const [miles, months] = [
      await ask(source, 'seal-life', viewSchema.parse({ horizonMiles: 40_000 })),
      await ask(source, 'seal-life', viewSchema.parse({ axis: 'months', horizonMonths: 40 })),
    ];
    const [one, other] = [miles.groups[0]!, months.groups[0]!];
    for (const name of ['b10Life', 'medianLife', 'restrictedMean'])
      for (const end of ['value', 'lower', 'upper'] as const) {
        const inMiles = one.estimates[name]?.[end] ?? null;
        const inMonths = other.estimates[name]?.[end] ?? null;
        if (inMiles === null) expect(inMonths).toBeNull();
        else expect(inMonths).toBeCloseTo(inMiles / 1_000, 6);
      }
    for (const name of ['failedByHorizonHadNoneBeenRenewed', 'failedByHorizonUnderRenewals', 'weibullShape'])
      expect(other.estimates[name]?.value).toBeCloseTo(one.estimates[name]?.value as number, 5);
    expect(other.estimates['b10Life']?.unit).toBe('months');
    // Exposure is said both ways whatever the axis: the months over 12 are the years.
    expect(other.miles).toBeCloseTo(one.miles, 6);
    expect(other.counts['wheelEndYears']).toBeCloseTo(one.miles / 12_000, 6);
    expect(one.counts['wheelEndYears']).toBeCloseTo(one.miles / 12_000, 6);
    expect(months.answer).toContain('months');
    expect(months.answer).not.toContain('miles');
    expect(months.series[0]?.columns['months']?.at(-1)).toBeCloseTo(
      (miles.series[0]?.columns['miles']?.at(-1) as number) / 1_000,
      6,
    );
  });
});

describe('how often, by the calendar', () => {
  it('says months between failures and failures per 100 wheel-end years', async () => {
    // 12 failures in 240 months of each of 10 wheel ends: 200 years, 6 per 100, one every 200 months.
    const lives = many(10, (at): Life => ({
      ...both({ exit_miles: 240_000, state: 'running' }),
      ...{ life_id: `L${at}`, unit_id: `U${at}` },
    }));
    const episodes = many(12, (at) => ({ life: `L${at % 10}`, mode: 'bearing', component: 'bearing' }));
    const finding = await ask(await fleet(engine, lives, episodes), 'mean-miles', viewSchema.parse({ axis: 'months' }));
    const [group] = finding.groups;
    expect(group?.estimates['meanMonthsBetweenFailures']?.value).toBeCloseTo(200, 9);
    expect(group?.estimates['failuresPerHundredWheelEndYears']).toMatchObject({ unit: 'per 100 wheel-end years' });
    expect(group?.estimates['failuresPerHundredWheelEndYears']?.value).toBeCloseTo(6, 9);
    expect(group?.counts['wheelEndYears']).toBeCloseTo(200, 9);
    expect(finding.answer).toContain('200 wheel-end years');
    expect(finding.answer).toContain('200 months');
  });

  it('has wheel-end years beside the miles, too', async () => {
    const finding = await ask(await fleet(engine, seals), 'mean-miles', viewSchema.parse({}));
    expect(finding.groups[0]?.counts['wheelEndYears']).toBeCloseTo((finding.groups[0]?.miles as number) / 12_000, 6);
  });
});

describe('lives that tell no days', () => {
  const dayless = seals.map(
    ({ entry_months: _entry, exit_months: _exit, exposure_months: _exposure, ...life }) => life,
  );
  it('cannot be asked by months, and say why', async () => {
    const source = await fleet(engine, dayless);
    await expect(ask(source, 'seal-life', viewSchema.parse({ axis: 'months' }))).rejects.toThrow(
      'no months in these lives',
    );
  });
  it('say nothing of wheel-end years', async () => {
    const finding = await ask(await fleet(engine, dayless), 'mean-miles', viewSchema.parse({}));
    expect(finding.groups[0]?.counts).not.toHaveProperty('wheelEndYears');
  });
});

describe('lives whose miles are estimated', () => {
  // 30 measured lives of 100,000 miles, 3 failed; 10 estimated ones, of which as many as said failed.
  const estimated = (failed: number): Life[] =>
    [
      ...many(30, (at): Life => ({
        exit_miles: 100_000,
        ...(at < 3 ? { state: 'failed', mode: 'seal-inner', exit_miles: 60_000 } : {}),
      })),
      ...many(10, (at): Life => ({
        exit_miles: 100_000,
        mileage_quality: 'extrapolated',
        ...(at < failed ? { state: 'failed', mode: 'seal-inner', exit_miles: 60_000 } : {}),
      })),
    ].map((life, at) => ({ ...life, life_id: `L${at}`, unit_id: `U${at}` }));
  const doubtOf = async (failed: number, question: 'seal-life' | 'mean-miles') =>
    (
      await ask(await fleet(engine, estimated(failed)), question, viewSchema.parse({ horizonMiles: 90_000 }))
    ).doubts.find(({ name }) => name === 'Estimated lives left out');

  it('are left out beside the answer, which fails where that moves it by a tenth', async () => {
    // All 40: 4 of 40 failed by 60,000 (10 %); without the estimated 3 of 30 (10 %): nothing moves.
    expect(await doubtOf(1, 'seal-life')).toMatchObject({
      state: 'holds',
      detail:
        'The miles of 10 lives are estimated; without them 10\u00a0% instead of 10\u00a0% would have failed by 90,000 miles.',
    });
    // 9 of 40 against 3 of 30: 22.5 % against 10 %.
    expect(await doubtOf(6, 'seal-life')).toMatchObject({ state: 'fails' });
  });

  it('are left out of rates alike', async () => {
    // 4 in 36 × 100,000 + 4 × 60,000 = 3.84 million miles, 1.04; without them 3 in 2.88 million, 1.04.
    expect(await doubtOf(1, 'mean-miles')).toMatchObject({
      state: 'holds',
      detail: 'The miles of 10 lives are estimated; without them 1.04 instead of 1.04 per million wheel-end miles.',
    });
    expect(await doubtOf(6, 'mean-miles')).toMatchObject({ state: 'fails' });
  });

  it('are in no answer where they are chosen to be out, and counted', async () => {
    const source = { ...(await fleet(engine, estimated(1))), estimatedLives: 'out' as const };
    const finding = await ask(source, 'mean-miles', viewSchema.parse({}));
    expect(finding.data).toMatchObject({ lives: 30, failures: 3 });
    expect(finding.doubts.find(({ name }) => name === 'Left out')?.detail).toBe(
      '10 lives whose miles are estimated are left out, as chosen.',
    );
  });
});
