import { describe, expect, it } from 'vitest';
import { createRandom, excessShare } from '../../lib/statistics/index.ts';

/** Lives of vehicles of four, some under watch late, an exposure that is stronger early, two strata, a covariate. */
function lives(vehicles: number, seed: number) {
  const random = createRandom(seed);
  const rows = Array.from({ length: vehicles * 4 }, (_, row) => {
    const vehicle = row >> 2;
    const [exposed, load] = [random.uniform() < 0.3 ? 1 : 0, vehicle % 3];
    const entry = random.uniform() < 0.3 ? random.uniform() * 4 : 0;
    const early = 0.05 * Math.exp(0.9 * exposed + 0.2 * load);
    const later = 0.05 * Math.exp(0.4 * exposed + 0.2 * load);
    const due = random.exponential();
    const life = due < 3 * early ? due / early : 3 + (due - 3 * early) / later;
    const stop = entry + 2 + random.uniform() * 12;
    return { vehicle, exposed, load, entry, stop, life, exit: Math.min(life, stop), event: life <= stop ? 1 : 0 };
  }).filter(({ life, entry }) => life > entry);
  return {
    ...{
      entry: rows.map(({ entry }) => entry),
      exit: rows.map(({ exit }) => exit),
      event: rows.map(({ event }) => event),
    },
    ...{ cluster: rows.map(({ vehicle }) => vehicle), strata: rows.map(({ vehicle }) => vehicle % 2) },
    covariates: { load: rows.map(({ load }) => load), x: rows.map(({ exposed }) => exposed) },
  };
}

describe('limits from influences', () => {
  const data = lives(900, 11);
  const options = { exposure: 'x', horizon: 10, cut: 3 };
  const fast = excessShare(data, { ...options, limits: 'influence', random: createRandom(1) });
  const slow = excessShare(data, { ...options, draws: 4000, random: createRandom(2) });
  const width = ({ lower, upper }: { lower: number | null; upper: number | null }) => (upper ?? NaN) - (lower ?? NaN);

  it('stand about the same value', () => {
    expect(fast.value).toBe(slow.value);
    expect(fast.excessPerThousand.value).toBe(slow.excessPerThousand.value);
    expect(fast.draws).toBe(0);
  });

  // 4,000 draws give a width to about 1.5 %; the rest is the shape of percentiles.
  it.each(['excessPerThousand', 'failedWithExposure', 'failedWithoutExposure'] as const)(
    'of %s are as wide as those of the bootstrap, within 5 %%',
    (name) => {
      expect(width(fast[name]) / width(slow[name])).toBeGreaterThan(0.95);
      expect(width(fast[name]) / width(slow[name])).toBeLessThan(1.05);
    },
  );

  it('of the share too', () => {
    expect(Math.abs(width(fast) / width(slow) - 1)).toBeLessThan(0.05);
    expect(Math.abs((fast.lower ?? NaN) - (slow.lower ?? NaN))).toBeLessThan(0.1 * width(slow));
  });

  it('hold the truth of the planted hazards in about 95 of 100 fleets', () => {
    // Exposure 30 %, loads 0, 1, 2 alike: 1 − exp(−(3·early + 7·later)) averaged, with and without the exposure.
    const failed = (exposed: number, load: number) =>
      1 - Math.exp(-0.05 * Math.exp(0.2 * load) * (3 * Math.exp(0.9 * exposed) + 7 * Math.exp(0.4 * exposed)));
    const mean = (exposed: number) => (failed(exposed, 0) + failed(exposed, 1) + failed(exposed, 2)) / 3;
    const [without, asRecorded] = [mean(0), 0.7 * mean(0) + 0.3 * mean(1)];
    let held = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const { lower, upper } = excessShare(lives(150, 1000 + seed), {
        ...{ ...options, limits: 'influence' as const, random: createRandom(1) },
      });
      if ((lower ?? -9) <= 1 - without / asRecorded && 1 - without / asRecorded <= (upper ?? 9)) held++;
    }
    // Binomial(200, 0.95): under 180 comes by chance once in 500.
    expect(held).toBeGreaterThanOrEqual(180);
  });
});
