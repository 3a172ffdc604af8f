import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { ask } from '../../lib/questions/index.ts';
import { findingSchema, type Estimate, type Finding } from '../../shared/finding.ts';
import { viewSchema, type View } from '../../shared/view.ts';
import { fleet, many, type Life } from './fleet.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

async function answer(lives: readonly Life[], view: Partial<View> = {}): Promise<Finding> {
  const finding = await ask(await fleet(engine, lives), 'seal-life', viewSchema.parse(view));
  return findingSchema.parse(finding);
}

const estimate = (finding: Finding, name: string, group = 'all'): Estimate => {
  const found = finding.groups.find(({ label }) => label === group)?.estimates[name];
  if (!found) throw new Error(`no ${name} of ${group}`);
  return found;
};

/** Twenty seals on twenty vehicles: one leaks at 10,000 miles, one at 20,000 … ten in all; ten more still run at 100,000. */
const evenly: Life[] = [
  ...many(10, (place) => ({ exit_miles: 10_000 * (place + 1), state: 'failed', mode: 'seal-inner' })),
  ...many(10, (place) => ({ unit_id: `R${place}`, life_id: `R${place}`, exit_miles: 100_000 })),
];

describe('a fleet without early censoring, where the curve is the share still dry', () => {
  test('quantiles are the ages of the second and the tenth failure', async () => {
    const finding = await answer(evenly);
    expect(estimate(finding, 'b10Life').value).toBe(20_000);
    expect(estimate(finding, 'medianLife').value).toBe(100_000);
  });

  test('the shares are k of 20 and the mean the area under the steps', async () => {
    const finding = await answer(evenly, { horizonMiles: 55_000 });
    expect(estimate(finding, 'failedByHorizonHadNoneBeenRenewed').value).toBeCloseTo(5 / 20, 12);
    // Steps of 10,000 at 20/20, 19/20 … 16/20, then 5,000 at 15/20.
    expect(estimate(finding, 'restrictedMean').value).toBeCloseTo(
      10_000 * (1 + 0.95 + 0.9 + 0.85 + 0.8) + 5000 * 0.75,
      6,
    );
  });

  test('without renewals both ways of saying the share agree', async () => {
    const finding = await answer(evenly, { horizonMiles: 55_000 });
    expect(estimate(finding, 'failedByHorizonUnderRenewals').value).toBeCloseTo(0.25, 12);
  });

  test('counts and miles are those of the lives', async () => {
    const finding = await answer(evenly);
    expect(finding.groups[0]).toMatchObject({ lives: 20, failures: 10, miles: 550_000 + 1_000_000 });
    expect(finding.data).toMatchObject({ lives: 20, failures: 10, miles: 1_550_000 });
    expect(estimate(finding, 'failuresPerMillionMiles').value).toBeCloseTo(10 / 1.55, 10);
  });
});

test('a planned renewal competes: half fail at 1,000 of those left when half were renewed at 500', async () => {
  const finding = await answer(
    [
      ...many(10, (place) => ({ life_id: `P${place}`, unit_id: `P${place}`, exit_miles: 500, state: 'planned' })),
      ...many(5, (place) => ({
        life_id: `F${place}`,
        unit_id: `F${place}`,
        exit_miles: 1000,
        state: 'failed',
        mode: 'seal-inner',
      })),
      ...many(5, (place) => ({ life_id: `R${place}`, unit_id: `R${place}`, exit_miles: 2000 })),
    ],
    { horizonMiles: 1500 },
  );
  expect(estimate(finding, 'failedByHorizonHadNoneBeenRenewed').value).toBeCloseTo(5 / 10, 12);
  expect(estimate(finding, 'failedByHorizonUnderRenewals').value).toBeCloseTo(5 / 20, 12);
});

test('late entry: a life fitted before the records is at risk from its entry on', async () => {
  const finding = await answer(
    [
      ...many(10, (place) => ({
        life_id: `A${place}`,
        unit_id: `A${place}`,
        exit_miles: 100,
        state: place === 0 ? 'failed' : 'running',
        mode: 'seal-inner',
      })),
      ...many(9, (place) => ({
        life_id: `L${place}`,
        unit_id: `L${place}`,
        entry_miles: 50,
        exit_miles: 300,
        state: place < 3 ? 'failed' : 'running',
        mode: 'seal-inner',
      })),
    ],
    { horizonMiles: 300 },
  );
  // At 100 miles 19 at risk and 1 fails; at 300 nine are left and 3 fail.
  expect(estimate(finding, 'failedByHorizonHadNoneBeenRenewed').value).toBeCloseTo(1 - (18 / 19) * (6 / 9), 12);
  expect(finding.groups[0]?.counts).toMatchObject({ lateEntries: 9, curveFromMiles: 0 });
});

describe('where too few are watched from new', () => {
  const late = [
    ...many(3, (place) => ({
      life_id: `A${place}`,
      unit_id: `A${place}`,
      exit_miles: 400,
      state: 'failed',
      mode: 'seal-inner',
    })),
    ...many(12, (place) => ({
      life_id: `L${place}`,
      unit_id: `L${place}`,
      entry_miles: 1000,
      exit_miles: 5000,
      state: place < 3 ? 'failed' : 'running',
      mode: 'seal-inner',
    })),
  ];

  test('the curve starts where ten are at risk and says of whom it tells', async () => {
    const finding = await answer(late, { horizonMiles: 5000 });
    expect(finding.groups[0]?.counts).toMatchObject({ curveFromMiles: 1000, endedBeforeCurve: 3 });
    expect(estimate(finding, 'failedByHorizonHadNoneBeenRenewed').value).toBeCloseTo(3 / 12, 12);
    expect(estimate(finding, 'b10Life').method).toContain('of lives that reached 1,000 miles');
    expect(finding.doubts.find(({ name }) => name === 'Late entries')).toMatchObject({ state: 'fails' });
  });

  test('under ten at any age there is no curve, and the reason is given', async () => {
    const finding = await answer(late.slice(0, 8));
    expect(estimate(finding, 'b10Life')).toMatchObject({
      value: null,
      reason: 'fewer than 10 lives are at risk at any age',
    });
    expect(finding.series).toEqual([]);
  });
});

test('a gap in the risk set starts the curve again after it, instead of letting it fall to nothing', async () => {
  const finding = await answer(
    [
      ...many(10, (place) => ({
        life_id: `A${place}`,
        unit_id: `A${place}`,
        exit_miles: 100,
        state: 'failed',
        mode: 'seal-inner',
      })),
      ...many(20, (place) => ({
        life_id: `L${place}`,
        unit_id: `L${place}`,
        entry_miles: 200,
        exit_miles: 1000,
        state: place < 5 ? 'failed' : 'running',
        mode: 'seal-inner',
      })),
    ],
    { horizonMiles: 1000 },
  );
  expect(finding.groups[0]?.counts['curveFromMiles']).toBe(200);
  expect(estimate(finding, 'failedByHorizonHadNoneBeenRenewed').value).toBeCloseTo(5 / 20, 12);
});

test('a horizon beyond the longest life gives no number, with the reason', async () => {
  const finding = await answer(evenly, { horizonMiles: 400_000 });
  for (const name of ['restrictedMean', 'failedByHorizonHadNoneBeenRenewed', 'failedByHorizonUnderRenewals'])
    expect(estimate(finding, name)).toMatchObject({
      value: null,
      reason: 'the longest life watched ends at 100,000 miles, short of the horizon',
    });
});

test('without a failure the share is zero and its upper limit the exact bound 1 − (α/2)^(1/n)', async () => {
  const finding = await answer(many(50, () => ({ exit_miles: 120_000 })));
  const share = estimate(finding, 'failedByHorizonHadNoneBeenRenewed');
  expect(share.value).toBe(0);
  expect(share.upper).toBeCloseTo(1 - 0.025 ** (1 / 50), 12);
  expect(estimate(finding, 'weibullShape')).toMatchObject({ value: null, reason: 'fewer than 2 failures' });
  // 6 million miles without a failure: at most 3.689 / 6 a million (two-sided 95 %).
  expect(estimate(finding, 'failuresPerMillionMiles').upper).toBeCloseTo(3.6889 / 6, 4);
});

test('lives of unknown start have no age: they are counted beside the curve', async () => {
  const finding = await answer([
    ...evenly,
    ...many(4, (place) => ({
      life_id: `X${place}`,
      exit_miles: null,
      entry_miles: null,
      exposure_miles: 40_000,
      install_kind: 'unknown',
    })),
  ]);
  expect(finding.groups[0]).toMatchObject({ lives: 20, counts: { unknownStart: 4 } });
  expect(finding.data).toMatchObject({ lives: 24, miles: 1_550_000 + 160_000 });
});

test('one mode narrows the failures; another mode ends a life as a renewal does', async () => {
  const lives = [
    ...many(10, (place) => ({
      life_id: `A${place}`,
      unit_id: `A${place}`,
      exit_miles: 1000,
      state: 'failed',
      mode: place < 4 ? 'seal-inner' : 'seal-outer',
    })),
    ...many(10, (place) => ({ life_id: `R${place}`, unit_id: `R${place}`, exit_miles: 2000 })),
  ];
  const finding = await answer(lives, { mode: 'seal-inner', horizonMiles: 1500 });
  expect(finding.groups[0]).toMatchObject({ failures: 4, counts: { renewed: 6 } });
  expect(estimate(finding, 'failedByHorizonUnderRenewals').value).toBeCloseTo(4 / 20, 12);
});

test('wheel ends that fail together widen the vehicle limits: ten pairs that agree are worth ten, not twenty', async () => {
  const pairs = many(40, (place) => ({
    unit_id: `U${Math.floor(place / 2)}`,
    exit_miles: 1000 + Math.floor(place / 2),
    state: place < 20 ? 'failed' : 'running',
    mode: 'seal-inner',
  }));
  const share = estimate(
    await answer(pairs, { horizonMiles: 1012, interval: 'plain' }),
    'failedByHorizonHadNoneBeenRenewed',
  );
  const half = (lower: number | null | undefined, upper: number | null | undefined) =>
    ((upper ?? 0) - (lower ?? 0)) / 2;
  // Variances of a share: p(1 − p)/40 against p(1 − p)/20, so widths √2 apart.
  expect(half(share.vehicleLower, share.vehicleUpper) / half(share.lower, share.upper)).toBeCloseTo(Math.SQRT2, 6);
});

describe('series', () => {
  test('the curve starts at one and the numbers at risk stand at round ages', async () => {
    const { series } = await answer(evenly, { horizonMiles: 55_000 });
    const [curve, atRisk] = series;
    expect(curve?.columns['miles']?.[0]).toBe(0);
    expect(curve?.columns['survival']?.[0]).toBe(1);
    expect(curve?.columns['survival']?.[2]).toBeCloseTo(18 / 20, 12);
    expect(atRisk?.columns).toEqual({
      miles: [0, 20_000, 40_000, 60_000, 80_000, 100_000],
      atRisk: [20, 19, 17, 15, 13, 11],
    });
  });

  test('a long curve is thinned to 400 points and keeps those its numbers are read from', async () => {
    const lives = many(3000, (place) => ({
      exit_miles: 100 + 37 * place,
      state: place % 3 === 0 ? 'failed' : 'running',
      mode: 'seal-inner',
    }));
    const finding = await answer(lives, { horizonMiles: 60_000 });
    const columns = finding.series[0]?.columns ?? {};
    expect(columns['miles']?.length).toBeLessThanOrEqual(401);
    expect(columns['miles']?.length).toBeGreaterThan(200);
    const tenth = columns['survival']?.findIndex((share) => (share ?? 1) <= 0.9) ?? -1;
    expect(columns['miles']?.[tenth]).toBe(estimate(finding, 'b10Life').value);
    const last = columns['miles']?.filter((miles) => (miles ?? 0) <= 60_000).length ?? 0;
    expect(1 - (columns['survival']?.[last - 1] ?? 0)).toBeCloseTo(
      estimate(finding, 'failedByHorizonHadNoneBeenRenewed').value ?? NaN,
      12,
    );
  });

  test('at most twelve groups are drawn, all are in the table', async () => {
    const lives = many(15 * 20, (place) => ({
      exit_miles: 1000 + place,
      duty: `d${place % 15}`,
      state: 'failed',
      mode: 'seal-inner',
    }));
    const finding = await answer(lives, { by: ['duty'] });
    expect(finding.groups.length).toBe(15);
    expect(finding.series.filter(({ name }) => name === 'curve').length).toBe(12);
    expect(finding.doubts.find(({ name }) => name === 'Left out')?.detail).toContain('not drawn');
  });
});

test('metric words change the sentence and no number', async () => {
  const source = await fleet(engine, evenly);
  const view = viewSchema.parse({});
  const [us, metric] = [
    await ask(source, 'seal-life', view),
    await ask(source, 'seal-life', view, undefined, { unitSystem: 'metric' }),
  ];
  expect(us.answer).toContain('20,000 miles');
  expect(metric.answer).toContain('32,000 km');
  expect(metric.groups).toEqual(us.groups);
});

test('a cancelled question stops', async () => {
  const source = await fleet(engine, evenly);
  await expect(ask(source, 'seal-life', viewSchema.parse({}), AbortSignal.abort(new Error('stop')))).rejects.toThrow(
    'stop',
  );
});
