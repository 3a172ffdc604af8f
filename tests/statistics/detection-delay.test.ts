import { describe, expect, test } from 'vitest';
import { createRandom, detectionDelay, StatisticsError } from '../../lib/statistics/index.ts';
import { detectionPieces } from '../../lib/statistics/detection-pieces.ts';
import { detectionScores } from '../../lib/statistics/detection-likelihood.ts';

interface Planted {
  readonly lives: number;
  readonly shape: number;
  readonly scale: number;
  readonly chance: number;
  /** Per mile, between checks. */
  readonly between: number;
  readonly gap: number;
  readonly end: number;
}

/** Lives whose leak begins at a Weibull age, checked every so often, and noticed between checks at a rate. */
function planted({ lives, shape, scale, chance, between, gap, end }: Planted, seed: number) {
  const random = createRandom(seed);
  const [exit, found, checkLife, checkAge]: [number[], number[], number[], number[]] = [[], [], [], []];
  for (let life = 0; life < lives; life++) {
    const begins = scale * (-Math.log(1 - random.uniform())) ** (1 / shape);
    const noticed = between > 0 ? begins - Math.log(1 - random.uniform()) / between : Infinity;
    let [at, how] = [Math.min(end, noticed), noticed < end ? 2 : 0];
    for (let check = gap * (0.2 + random.uniform()); check < at; check += gap) {
      if (check > begins && random.uniform() < chance) [at, how] = [check, 1];
      else {
        checkLife.push(life);
        checkAge.push(check);
      }
    }
    exit.push(at);
    found.push(how);
  }
  return { exit, found, checkLife, checkAge };
}

describe('the likelihood by hand', () => {
  // One life of exponential onset, mean 10, checked dry at 4, found by a check at 8; nothing between checks.
  // Onset before 4 was missed once: q [(1 − e^−0.4)(1 − q) + e^−0.4 − e^−0.8].
  test('a missed check and a check that sees', () => {
    const pieces = detectionPieces({ exit: [8], found: [1], checkLife: [0], checkAge: [4] });
    const [q, e4, e8] = [0.25, Math.exp(-0.4), Math.exp(-0.8)];
    const { value } = detectionScores(pieces, [0, Math.log(10), Math.log(q / (1 - q)), -60]);
    expect(value).toBeCloseTo(Math.log(q * ((1 - e4) * (1 - q) + e4 - e8)), 12);
  });

  test('not found: dry for good, or begun and not seen', () => {
    const pieces = detectionPieces({ exit: [8], found: [0], checkLife: [0], checkAge: [8] });
    const [q, e8] = [0.25, Math.exp(-0.8)];
    const { value } = detectionScores(pieces, [0, Math.log(10), Math.log(q / (1 - q)), -60]);
    expect(value).toBeCloseTo(Math.log(e8 + (1 - e8) * (1 - q)), 12);
  });

  // Exponential onset at rate a, noticed at rate d: the density of the sum is a d (e^−at − e^−dt) / (d − a).
  test('found between checks, to the fineness of the pieces', () => {
    const [a, d, t] = [0.1, 0.5, 8];
    const pieces = detectionPieces({ exit: [t], found: [2], checkLife: [], checkAge: [] });
    const { value } = detectionScores(pieces, [0, -Math.log(a), 0, Math.log(d)]);
    expect(value).toBeCloseTo(Math.log((a * d * (Math.exp(-a * t) - Math.exp(-d * t))) / (d - a)), 3);
  });

  test('its slopes are those of its value', () => {
    const data = planted({ lives: 30, shape: 1.5, scale: 60, chance: 0.5, between: 0.02, gap: 20, end: 120 }, 3);
    const again = { seenAgain: data.exit.map(() => 1), missedAgain: data.exit.map((_, life) => life % 3) };
    const pieces = detectionPieces({ ...data, ...again });
    const at = [0.3, 4, -0.4, -3];
    const { scores } = detectionScores(pieces, at);
    for (let place = 0; place < 4; place++) {
      const near = (by: number) =>
        detectionScores(
          pieces,
          at.map((one, k) => (k === place ? one + by : one)),
        ).value;
      const sum = Array.from({ length: 30 }, (_, life) => scores[4 * life + place] as number).reduce((x, y) => x + y);
      expect(sum).toBeCloseTo((near(1e-5) - near(-1e-5)) / 2e-5, 5);
    }
  });
});

test('planted fleets: the chance, the rate between checks and the onset are found again', () => {
  const truth = { lives: 3000, shape: 1.6, scale: 150_000, chance: 0.55, between: 8e-6, gap: 15_000, end: 200_000 };
  const data = planted(truth, 11);
  const found = detectionDelay({ ...data, cluster: data.exit.map((_, life) => `vehicle ${life >> 2}`) });
  expect(found.reason).toBeNull();
  for (const [estimate, value] of [
    [found.chance, truth.chance],
    [found.rateBetween, truth.between],
    [found.shape, truth.shape],
    [found.scale, truth.scale],
  ] as const) {
    expect(estimate.lower as number).toBeLessThan(value);
    expect(estimate.upper as number).toBeGreaterThan(value);
    expect(estimate.robust?.lower as number).toBeLessThan(value);
    expect(estimate.robust?.upper as number).toBeGreaterThan(value);
  }
  expect(found.chance.upper as number).toBeLessThan(0.8);
  expect(found.chance.lower as number).toBeGreaterThan(0.3);
});

test('what cannot be told is refused with its reason', () => {
  expect(detectionDelay({ exit: [5, 9], found: [0, 0], checkLife: [0], checkAge: [3] }).reason).toContain('nothing');
  expect(detectionDelay({ exit: [5, 9], found: [2, 0], checkLife: [0], checkAge: [3] }).reason).toContain('no check');
  expect(() => detectionDelay({ exit: [5], found: [1], checkLife: [0], checkAge: [6] })).toThrow(StatisticsError);
  expect(() => detectionDelay({ exit: [0], found: [1], checkLife: [], checkAge: [] })).toThrow(/exit\[0\]/);
});
