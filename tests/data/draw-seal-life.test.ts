// Expectations are worked from the planted parameters by closed form; the allowance is five standard errors.
import { describe, expect, it } from 'vitest';
import { FACTORY, drawInstallation } from '../../data/demo/draw-installation.ts';
import { drawBearingFailure, drawSeep } from '../../data/demo/draw-seal-life.ts';
import type { AxlePlan } from '../../data/demo/draw-unit.ts';
import { bitOf } from '../../data/demo/planted-deviations.ts';
import { BEARING_WEAR, SEAL_WEAR } from '../../data/demo/planted-effects.ts';
import { Random } from '../../data/demo/random.ts';
import { SHOPS } from '../../data/demo/story.ts';
import { dayOf } from '../../data/demo/calendar.ts';

const DRAWS = 40_000;
const drive: AxlePlan = {
  number: 2,
  role: 'drive',
  build: 'adjusted',
  lubricant: 'oil',
  nutSystem: 'double',
  material: 'iron',
};
const plain = { axle: drive, duty: 'linehaul', frailty: 1, priorFailures: 0, lot: null };
const wear = SEAL_WEAR['drive oil'] as { shape: number; scaleMiles: number };
const wearSurvival = (miles: number, hazard = 1) => Math.exp(-hazard * (miles / wear.scaleMiles) ** wear.shape);

const share = (draw: (random: Random) => boolean) => {
  const random = new Random(11, 5);
  let hits = 0;
  for (let index = 0; index < DRAWS; index++) if (draw(random)) hits++;
  return hits / DRAWS;
};
const expectShare = (seen: number, expected: number) =>
  expect(Math.abs(seen - expected)).toBeLessThan(5 * Math.sqrt((expected * (1 - expected)) / DRAWS));

describe('drawSeep', () => {
  it('wears by the planted Weibull where nothing was done wrong', () => {
    for (const miles of [100_000, 400_000])
      expectShare(
        share((random) => drawSeep(random, plain, FACTORY).age < miles),
        1 - wearSurvival(miles),
      );
  });

  it('multiplies the wear hazard: end play of 0.010 in by e, quarry duty by 1.7, a frailty by itself', () => {
    const loose = { ...FACTORY, endPlayThousandths: 10 };
    expectShare(
      share((random) => drawSeep(random, plain, loose).age < 200_000),
      1 - wearSurvival(200_000, Math.E),
    );
    const quarry = { ...plain, duty: 'quarry', frailty: 0.5 };
    expectShare(
      share((random) => drawSeep(random, quarry, FACTORY).age < 200_000),
      1 - wearSurvival(200_000, 1.7 * 0.5),
    );
  });

  it('opens the early branch of a cocked seal to 80 % of them: Weibull 0.9, 12,000 miles', () => {
    const cocked = { ...FACTORY, bits: bitOf('seal-cocked') };
    const early = (miles: number) => 0.8 * (1 - Math.exp(-((miles / 12_000) ** 0.9)));
    for (const miles of [5_000, 12_000, 60_000])
      expectShare(
        share((random) => drawSeep(random, plain, cocked).age < miles),
        1 - (1 - early(miles)) * wearSurvival(miles),
      );
  });

  it('leaves a seal alone whose hub lacks its mark, has sealant on it or a used gasket', () => {
    const spacer: AxlePlan = { ...drive, build: 'spacer' };
    const bits = bitOf('mark-missing') | bitOf('sealant-on-seal') | bitOf('gasket-reused');
    const ages = (installed: number) => {
      const random = new Random(3, 3);
      return Array.from({ length: 200 }, () =>
        drawSeep(random, { ...plain, axle: spacer }, { ...FACTORY, bits: installed }),
      );
    };
    expect(ages(bits)).toEqual(ages(0));
  });
});

describe('drawBearingFailure', () => {
  it('goes on from the age of a set that was kept', () => {
    const { shape, scaleMiles } = BEARING_WEAR;
    const chance = (age: number, more: number) =>
      1 - Math.exp((age / scaleMiles) ** shape - ((age + more) / scaleMiles) ** shape);
    for (const age of [0, 800_000])
      expectShare(
        share((random) => drawBearingFailure(random, drive, FACTORY, age).age < 500_000),
        chance(age, 500_000),
      );
  });
});

describe('drawInstallation', () => {
  const job = (shop: string, date: string) => ({
    shop: SHOPS.findIndex((name) => name === shop),
    day: dayOf(date),
    duty: 'linehaul',
    priorFailures: 1,
  });
  const seen = (code: string, shop: string, date: string, axle = drive) => {
    const bit = bitOf(code);
    return share((random) => (drawInstallation(random, axle, job(shop, date)).bits & bit) !== 0);
  };

  it('keeps the planted mean of each shop, though deviations come together on rushed jobs', () => {
    expectShare(seen('end-play-high', 'Eastfen', '2021-05-01'), 0.2);
    expectShare(seen('seal-cocked', 'Eastfen', '2021-05-01'), 0.082);
    expectShare(seen('packed-in-oil-bath', 'Ambleford', '2021-05-01'), 0.05);
  });

  it('lets deviations fall at Brackwell with its new sheet, and only there', () => {
    expectShare(seen('seal-cocked', 'Brackwell', '2022-06-30'), 0.08);
    expectShare(seen('seal-cocked', 'Brackwell', '2022-07-01'), 0.08 * 0.15);
    expectShare(seen('seal-cocked', 'Ambleford', '2022-07-01'), 0.03);
  });

  it('knows where a deviation cannot exist', () => {
    const unitized: AxlePlan = { ...drive, build: 'unitized', lubricant: 'packed' };
    for (const code of ['seal-cocked', 'packed-in-oil-bath', 'end-play-high', 'spacer-missing'])
      expect(seen(code, 'Eastfen', '2021-05-01', unitized)).toBe(0);
    expect(seen('spacer-missing', 'Eastfen', '2021-05-01')).toBe(0);
  });
});
