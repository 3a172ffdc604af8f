import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { fitLife } from '../../lib/statistics/index.ts';
import { findingSchema, shownLimits, type Estimate, type Finding } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { fleet, many, type Life } from './fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const answer = async (lives: readonly Life[], view: Partial<View> = {}): Promise<Finding> =>
  findingSchema.parse(await ask(await fleet(engine, lives), 'renewal', viewSchema.parse(view)));
const estimate = (finding: Finding, name: string): Estimate => finding.groups[0]?.estimates[name] as Estimate;

/** The share of a Weibull below `place` of `of`, so that a sample is the distribution itself. */
const weibullAt = (place: number, of: number, shape: number, scale: number): number =>
  scale * (-Math.log(1 - (place + 0.5) / of)) ** (1 / shape);

/**
 * Wear-out of shape 3 and scale 100,000: 300 lives, one in three first watched at 30,000 (those that failed
 * before are not seen), all let run to 160,000 at most; of the failed every fourth soaked the lining.
 */
const worn = (shape = 3, end = 160_000): Life[] =>
  many(300, (place): Life => {
    const age = weibullAt(place, 300, shape, 100_000);
    const entry = place % 3 === 0 ? 30_000 : 0;
    const fails = age < end;
    return {
      ...{ life_id: `L${place}`, unit_id: `U${place}`, entry_miles: entry, exit_miles: Math.min(age, end) },
      ...(fails ? { state: 'failed', mode: 'seal-inner', lining_contaminated: place % 4 === 0 ? 'yes' : 'no' } : {}),
    };
  }).filter((life) => (life['exit_miles'] as number) > (life['entry_miles'] as number));

describe('a planned renewal by hand', () => {
  const lives = worn();
  const failed = lives.filter(({ state }) => state === 'failed');
  const soaked = failed.filter(({ lining_contaminated: lining }) => lining === 'yes').length / failed.length;
  // 150 to repair, 150 in downtime, 300 more where the lining is soaked; nobody says who found them.
  const failureCost = 300 + 300 * soaked;
  const fit = fitLife(
    {
      entry: lives.map((life) => life['entry_miles'] as number),
      exit: lives.map((life) => life['exit_miles'] as number),
      event: lives.map(({ state }) => (state === 'failed' ? 1 : 0)),
    },
    { distribution: 'weibull' },
  );
  const [shape, scale] = [fit.parameters.shape.value, fit.parameters.scale.value];
  const survival = (miles: number) => Math.exp(-((miles / scale) ** shape));
  const lifeTo = (miles: number) => {
    const steps = 4000;
    let sum = 0;
    for (let k = 0; k <= steps; k++) sum += (k % steps ? (k % 2 ? 4 : 2) : 1) * survival((miles * k) / steps);
    return (sum * miles) / steps / 3;
  };
  const cost = (miles: number) => (1e6 * (100 * survival(miles) + failureCost * (1 - survival(miles)))) / lifeTo(miles);
  /** The root of h(a) ∫₀^a S − F(a) = planned / (failure − planned) (Barlow & Proschan 1965, §4.2), by halving. */
  const optimum = () => {
    const excess = (a: number) =>
      (shape / scale) * (a / scale) ** (shape - 1) * lifeTo(a) - (1 - survival(a)) - 100 / (failureCost - 100);
    let [low, high] = [1000, 300_000];
    for (let halving = 0; halving < 60; halving++) {
      const middle = (low + high) / 2;
      if (excess(middle) < 0) low = middle;
      else high = middle;
    }
    return low;
  };
  let finding: Finding;
  beforeAll(async () => {
    finding = await answer(lives);
  });

  test('the miles solve the optimum equation for lives entered late', () => {
    expect(finding.groups[0]?.failures).toBe(failed.length);
    expect((estimate(finding, 'renewalMiles').value as number) / optimum()).toBeCloseTo(1, 3);
    const { lower, upper } = shownLimits(estimate(finding, 'renewalMiles'));
    expect((lower as number) < optimum() && optimum() < (upper as number)).toBe(true);
  });
  test('the saving is what running to failure costs more', () => {
    const forever = (1e6 * failureCost) / lifeTo(8 * scale);
    expect(estimate(finding, 'costRunToFailure').value).toBeCloseTo(forever, 1);
    expect(estimate(finding, 'costAtRenewal').value).toBeCloseTo(cost(optimum()), 3);
    expect(estimate(finding, 'savingPerMillionMiles').value).toBeCloseTo(forever - cost(optimum()), 1);
    expect(estimate(finding, 'savingPerMillionMiles').lower as number).toBeGreaterThan(0);
  });
  test('both ends of the flat stretch cost 2 % more than the least', () => {
    const { flatFromMiles = NaN, flatToMiles = NaN } = finding.groups[0]?.counts ?? {};
    for (const end of [flatFromMiles, flatToMiles]) expect(cost(end) / cost(optimum())).toBeCloseTo(1.02, 4);
  });
  test('the lining’s share is that of the failures told, with its count', () => {
    expect(estimate(finding, 'liningShare').value).toBeCloseTo(soaked, 12);
    expect(finding.further).toContain(`of ${failed.length} told`);
    expect(finding.further).toContain('a road call not counted, as too few say');
  });
  test('how many fail before, and never that any is safe', () => {
    expect(estimate(finding, 'failedByRenewal').value).toBeCloseTo(1 - survival(optimum()), 3);
    expect(finding.further).toMatch(/have leaked before those miles all the same/);
    expect(`${finding.answer} ${finding.further}`).not.toMatch(/\bsafe\b/);
  });
  test('the first failures of 1,000 installations are those of the product-limit curve', async () => {
    // All watched from new: 100 of 200 fail at 20,000 to 24,000, half at ages past 25,000.
    const early = await answer(
      many(200, (place) => ({
        ...{ unit_id: `U${place}`, exit_miles: place < 10 ? 20_000 + place : 80_000 + 100 * place },
        ...{ state: 'failed', mode: 'seal-inner' },
      })),
    );
    expect(estimate(early, 'earlyFailuresPerThousand').value).toBeCloseTo(50, 9);
  });
  test('the same records give the same draws', async () => {
    expect(await answer(lives)).toEqual(finding);
  });
  test('dearer failures are renewed sooner, by the costs of the view', async () => {
    const dear = await answer(lives, { failureCost: 1500 });
    expect(estimate(dear, 'renewalMiles').value as number).toBeLessThan(
      estimate(finding, 'renewalMiles').value as number,
    );
  });
  test('ages asked in months are planned in miles all the same', async () => {
    const { settings, groups } = await answer(lives, { axis: 'months' });
    expect(settings.axis).toBe('miles');
    expect(groups).toEqual(finding.groups);
  });
});

describe('no miles are named', () => {
  const refusal = (finding: Finding) => estimate(finding, 'renewalMiles');

  test('where lives do not wear out', async () => {
    const finding = await answer(worn(1, 300_000));
    expect(refusal(finding).value).toBeNull();
    expect(refusal(finding).reason).toMatch(/does not exclude zero|no planned age beats/);
    expect(finding.answer).toContain('not shown to pay');
    expect(finding.firmness).not.toBe('firm');
  });
  test('where the least cost lies beyond what was watched', async () => {
    const finding = await answer(worn(3, 60_000), { plannedCost: 170 });
    expect(refusal(finding).value).toBeNull();
    expect(refusal(finding).reason).toMatch(/beyond/);
  });
  test('where a failure costs no more than a renewal', async () => {
    const finding = await answer(worn(), { plannedCost: 5000 });
    expect(refusal(finding).reason).toMatch(/costs no more than a planned replacement/);
  });
  test('from fewer than 15 failures', async () => {
    const finding = await answer(worn().filter(({ state }, at) => state === 'failed' && at % 30 === 0));
    expect(refusal(finding).reason).toBe('fewer than 15 failures');
    expect(finding.firmness).toBe('thin');
  });
  test('of parts a vehicle came with', async () => {
    const finding = await answer(worn().map((life) => ({ ...life, install_kind: 'original' })));
    expect(finding.data.lives).toBe(0);
    expect(finding.answer).toContain('No replacement lives');
  });
});
