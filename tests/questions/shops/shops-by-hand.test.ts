import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { ask } from '../../../lib/questions/index.ts';
import { daysAMonth } from '../../../shared/units.ts';
import { findingSchema, type Finding } from '../../../shared/finding.ts';
import { viewSchema, type View } from '../../../shared/view.ts';
import { fleet, many, type Life } from '../fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const answer = async (lives: readonly Life[], view: Partial<View> = {}): Promise<Finding> =>
  findingSchema.parse(await ask(await fleet(engine, lives), 'shops', viewSchema.parse(view)));
const group = (finding: Finding, label: string) => finding.groups.find((own) => own.label === label);
const failed = { state: 'failed', mode: 'seal-inner' };

describe('jobs that came back', () => {
  const job = (days: number, life: Life = {}): Life => ({
    ...{ shop: 'A', exit_miles: days * 300, entry_months: 0, exit_months: days / daysAMonth },
    ...life,
  });
  // Eight jobs: failed on day 10, 30 and 60; one watched to day 45; four to day 400.
  const jobs = [job(10, failed), job(30, failed), job(60, failed), job(45), ...many(4, () => job(400))];

  test('within 30 and 90 days, those not watched so long counted while they were', async () => {
    const shop = group(await answer(jobs), 'A');
    expect(shop?.counts).toMatchObject({ comebacks30: 2, comebacks90: 3 });
    // 7/8 · 6/7, then 4/5 of the five still watched on day 60.
    expect(shop?.estimates['comebackWithin30Days']?.value).toBeCloseTo(1 - 6 / 8, 12);
    expect(shop?.estimates['comebackWithin90Days']?.value).toBeCloseTo(1 - (6 / 8) * (4 / 5), 12);
  });

  test('none of eight still allows for some', async () => {
    const shop = group(await answer(many(8, () => job(400))), 'A');
    const share = shop?.estimates['comebackWithin30Days'];
    // No failure in eight: the upper limit p has (1 − p)^8 = 0.025.
    expect(share).toMatchObject({ value: 0, lower: 0 });
    expect(share?.upper).toBeCloseTo(1 - 0.025 ** (1 / 8), 10);
  });

  test('lives without days say so', async () => {
    const shop = group(await answer([{ shop: 'A', exit_miles: 5000, ...failed }]), 'A');
    expect(shop?.estimates['comebackWithin30Days']).toMatchObject({ value: null });
    expect(shop?.estimates['comebackWithin30Days']?.reason).toContain('watched');
  });
});

/** Of each shop so many failures, one every 1,000 miles from 1,000 on, and so many lives that run to 100,000. */
const shop = (name: string, failures: number, running: number, life: Life = {}): Life[] =>
  [
    ...many(failures, (place) => ({ exit_miles: 1000 * (place + 1), ...failed })),
    ...many(running, () => ({ exit_miles: 100_000 })),
  ].map((own, place) => ({ ...own, ...life, shop: name, life_id: `${name}${place}`, unit_id: `${name}${place}` }));

describe('what is compared', () => {
  test('under five failures there are exact bounds, no ratio and no place in the order', async () => {
    const finding = await answer([...shop('A', 20, 40), ...shop('B', 20, 60), ...shop('C', 4, 20)]);
    const small = group(finding, 'C');
    expect(small?.firmness).toBe('too few');
    expect(small?.counts['orderLikeForLike']).toBeUndefined();
    expect(small?.estimates['observedToExpected']).toMatchObject({ value: null });
    expect(small?.estimates['observedToExpected']?.upper).toBeGreaterThan(1);
    expect(finding.groups.at(-1)?.label).toBe('C');
    expect(group(finding, 'A')?.counts['orderLikeForLike']).toBe(1);
  });

  test('parts that came off unexplained at one shop may be its failures', async () => {
    const unexplained = shop('B2', 0, 40).map((life) => ({
      ...life,
      shop: 'B',
      exit_miles: 20_000,
      state: 'removed-unknown',
    }));
    const finding = await answer([...shop('A', 40, 40), ...shop('B', 10, 40), ...unexplained]);
    const doubt = finding.doubts.find(({ name }) => name === 'Removed for no stated reason');
    expect(doubt?.state).toBe('fails');
    expect(doubt?.detail).toContain('40 parts');
    const explained = await answer([...shop('A', 40, 40), ...shop('B', 10, 40)]);
    expect(explained.doubts.some(({ name }) => name === 'Removed for no stated reason')).toBe(false);
  });

  test('jobs of no known shop are in the average and are not compared', async () => {
    const finding = await answer([
      ...shop('A', 20, 40),
      ...shop('B', 20, 60),
      ...shop('none', 20, 20).map((life) => ({ ...life, shop: null })),
    ]);
    const unknown = group(finding, 'unknown');
    expect(unknown?.counts['orderLikeForLike']).toBeUndefined();
    const expected = finding.groups.map(({ estimates }) => estimates['expectedFailures']?.value as number);
    expect(expected.reduce((sum, one) => sum + one, 0)).toBeCloseTo(60, 8);
    const doubt = finding.doubts.find(({ name }) => name === 'Shop not known');
    expect(doubt).toMatchObject({ state: 'fails' });
    expect(doubt?.detail).toContain('(40)');
  });

  test('parts that a vehicle came with are no job of a shop', async () => {
    const finding = await answer([
      ...shop('A', 20, 40),
      ...shop('B', 20, 60),
      ...shop('A2', 5, 5).map((life) => ({ ...life, install_kind: 'original' })),
    ]);
    expect(group(finding, 'A2')).toBeUndefined();
    expect(finding.doubts.find(({ name }) => name === 'Left out')?.detail).toContain('10 lives that no job');
  });

  test('a shop whose work nobody else does is not compared', async () => {
    const lives = [
      ...shop('A', 20, 40, { role: 'drive' }),
      ...shop('B', 20, 60, { role: 'drive' }),
      ...shop('C', 30, 30, { role: 'trailer' }),
    ];
    const finding = await answer(lives);
    const alone = group(finding, 'C');
    expect(alone?.estimates['observedToExpected']).toMatchObject({ value: null });
    expect(alone?.notes?.[0]).toContain('axle role');
    expect(finding.doubts.find(({ name }) => name === 'Common ground')).toMatchObject({ state: 'fails' });
  });

  test('one shop alone is compared with nobody', async () => {
    const finding = await answer(shop('A', 20, 40));
    expect(finding.answer).toContain('Too few to compare');
    expect(finding.firmness).toBe('too few');
  });

  test('own shops, vendors and the roadside, in one order of words', async () => {
    const lives = [...shop('A', 20, 80, { site: 'shop' }), ...shop('B', 30, 40, { site: 'roadside' })];
    const finding = await answer(lives, { by: ['site'] });
    expect(finding.title).toContain('roadside');
    expect(finding.groups[0]?.by).toEqual({ site: 'roadside' });
    expect(finding.answer).toContain('where fitted at the roadside');
    expect(finding.settings.by).toEqual(['site']);
  });

  test('people are not: another cut is not used', async () => {
    const lives = [...shop('A', 20, 40, { technician_key: 'k1' }), ...shop('B', 20, 60, { technician_key: 'k2' })];
    const finding = await answer(lives, { by: ['technician_key'] });
    expect(finding.groups.map(({ by }) => Object.keys(by))).toEqual([['shop'], ['shop']]);
    expect(JSON.stringify(finding)).not.toContain('k1');
  });

  test('no lives and no failures are answers too', async () => {
    const nobody = await answer(shop('A', 3, 3), { where: { shop: ['B'] } });
    expect(nobody.answer).toContain('No lives');
    const dry = await answer([...shop('A', 0, 30), ...shop('B', 0, 30)]);
    expect(dry.answer).toContain('Too few to compare');
    expect(group(dry, 'A')?.estimates['expectedFailures']?.value).toBeNull();
  });
});

describe('the drawn-in ratio', () => {
  test('lies between the ratio and the average, the nearer the fewer failures', async () => {
    const finding = await answer([
      ...shop('A', 40, 40),
      ...shop('B', 40, 160),
      ...shop('C', 8, 8),
      ...shop('D', 40, 100),
    ]);
    const of = (label: string, name: string) => group(finding, label)?.estimates[name]?.value as number;
    for (const label of ['A', 'B', 'C']) {
      const [raw, drawn] = [of(label, 'observedToExpected'), of(label, 'shrunkenRatio')];
      expect(Math.abs(Math.log(drawn))).toBeLessThan(Math.abs(Math.log(raw)));
      expect(Math.sign(Math.log(drawn))).toBe(Math.sign(Math.log(raw)));
    }
    const kept = (label: string) => Math.log(of(label, 'shrunkenRatio')) / Math.log(of(label, 'observedToExpected'));
    expect(kept('C')).toBeLessThan(kept('A'));
  });
});
