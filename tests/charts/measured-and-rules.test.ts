import { describe, expect, test } from 'vitest';
import {
  canNarrow,
  doseSays,
  drawBefallen,
  drawFoundAndBegun,
  drawLookedAlone,
  drawMeanFailures,
  figureOf,
  lightTheme,
} from '../../lib/charts/index.ts';
import type { FigureOptions } from '../../lib/charts/figure.ts';
import type { Finding } from '../../shared/finding.ts';
import { estimate, handFinding } from './invented-findings.ts';
import { drawnElements, renderSvg } from './render.ts';

const options: FigureOptions = { width: 900, height: 400, theme: lightTheme, unitSystem: 'us' };
const share = (value: number, lower: number | null, upper: number | null) => estimate(value, lower, upper, 'share');
const texts = async (figure: ReturnType<typeof figureOf>) =>
  drawnElements(await renderSvg(figure.spec)).filter(({ text }) => text !== '');
const saying = async (figure: ReturnType<typeof figureOf>) => (await texts(figure)).map(({ text }) => text);

const rules = (): Finding =>
  handFinding('rules', {}, [
    {
      by: { rule: 'as the records are read' },
      estimates: { failedByHorizonHadNoneBeenRenewed: share(0.2, 0.18, 0.22) },
    },
    {
      by: { rule: 'any failure at the wheel end counts' },
      estimates: { failedByHorizonHadNoneBeenRenewed: share(0.3, 0.27, 0.33) },
    },
  ]);

describe('the rule strip', () => {
  test('names every rule with its value, wide or narrow, and offers none to be looked at alone', async () => {
    for (const width of [900, 358]) {
      const figure = figureOf(rules(), { ...options, width });
      const said = await saying(figure);
      expect(said).toContain('any failure at the wheel end counts');
      expect(said).toContain('30.0 (27.0–33.0)');
      expect(figure.labels).toEqual([]);
    }
    expect(canNarrow({ rule: 'as the records are read' })).toBe(false);
    expect(canNarrow({ lubricant: 'oil' })).toBe(true);
  });
  test('runs the limits as read through all rows', async () => {
    const svg = await renderSvg(figureOf(rules(), options).spec);
    expect(svg).toContain(lightTheme.accent);
  });
});

const dose = (): Finding => ({
  ...handFinding('dose', {}, [{ by: { value: '300 to 400 lbf·ft' }, estimates: {} }]),
  series: [
    { name: 'window', group: 'outer-torque', columns: { least: [300], most: [400], nominal: [350] } },
    {
      ...{ name: 'readings', group: 'all' },
      columns: { value: [310, 350, 1000], lives: [10, 60, 2], failures: [4, 6, 1] },
    },
    {
      ...{ name: 'hazard-over-value', group: 'all' },
      columns: { value: [300, 350, 400], ratio: [2, 1, 1.5], lower: [1.2, 1, 0.8], upper: [3, 1, 2.6] },
    },
  ],
});

describe('a measured value', () => {
  test('is drawn over its window, in the reader’s unit', async () => {
    const said = await saying(figureOf(dose(), options));
    expect(said).toContain('window 300 to 400 lbf·ft');
    expect(said).toContain('torque of the outer nut (lbf·ft)');
    // 300 and 400 lbf·ft at 1.35582 N·m each (NIST SP 811, B.8): 406.7 and 542.3.
    expect(await saying(figureOf(dose(), { ...options, unitSystem: 'metric' }))).toContain('window 407 to 542 N·m');
  });
  test('says how many were written to one value, and how many lie beyond the axis', async () => {
    expect(await saying(figureOf(dose(), options))).toContain('60 of 72 lives read exactly 350');
    expect(doseSays(dose(), 'us')).toContain('2 read beyond the axis');
  });
  test('without a curve says so, and draws what was written down', async () => {
    const finding = { ...dose(), series: dose().series.filter(({ name }) => name !== 'hazard-over-value') };
    expect(doseSays(finding, 'us')).toContain('Too few failures for a curve');
    expect(await saying(figureOf(finding, options))).toContain('60 of 72 lives read exactly 350');
  });
});

const detection = (): Finding => {
  const finding = handFinding('detection', { by: ['lubricant'] }, [
    {
      by: { lubricant: 'oil' },
      estimates: {
        ...{ foundByHorizon: share(0.2, 0.18, 0.22), begunByHorizon: share(0.25, 0.22, 0.28) },
        ...{ leakNotSoakedByHorizon: share(0.1, 0.08, 0.12), soakedLiningByHorizon: share(0.06, 0.05, 0.08) },
        ...{ bearingFailureByHorizon: share(0.02, 0.01, 0.03), foundByHorizonLagAlone: share(0.18, null, null) },
      },
    },
  ]);
  const ages = { miles: [0, 50_000, 100_000] };
  return {
    ...finding,
    series: [
      {
        ...{ name: 'found', group: 'oil' },
        columns: { ...ages, survival: [1, 0.9, 0.8], lower: [1, 0.88, 0.78], upper: [1, 0.92, 0.82] },
      },
      {
        ...{ name: 'begun-fitted', group: 'oil' },
        columns: { ...ages, survival: [1, 0.87, 0.75], lower: [1, 0.85, 0.72], upper: [1, 0.9, 0.78] },
      },
    ],
  };
};

describe('finding and beginning', () => {
  test('stand one under the other, each with its interval', async () => {
    const said = await saying(figureOf(detection(), options));
    expect(said).toEqual(expect.arrayContaining(['oil · found leaking', 'oil · begun to leak', '25.0 (22.0–28.0)']));
  });
  test('are two named lines a group', async () => {
    expect(await saying(drawFoundAndBegun(detection(), options))).toEqual(
      expect.arrayContaining(['oil', 'begun', 'found', 'miles since installation']),
    );
  });
  test('what competes is drawn together; what has no limits is drawn without', async () => {
    expect(await saying(drawBefallen(detection(), options))).toEqual(
      expect.arrayContaining(['leaked, lining not soaked · oil', 'lining soaked · oil', 'bearing failed · oil']),
    );
    expect(await saying(drawLookedAlone(detection(), options))).toContain('18.0');
    expect(await renderSvg(drawLookedAlone(detection(), options).spec)).not.toContain('triangle');
  });
});

test('mean failures are drawn as far as ten wheel ends were watched', async () => {
  const finding: Finding = {
    ...handFinding('repeats', {}, []),
    series: [
      {
        ...{ name: 'mean-failures', group: 'all' },
        columns: {
          ...{ miles: [100_000, 200_000, 900_000], mean: [0.2, 0.5, 9], atRisk: [50, 20, 2] },
          ...{ lower: [0.1, 0.4, 1], upper: [0.3, 0.6, 20] },
        },
      },
    ],
  };
  const said = await saying(drawMeanFailures(finding, options));
  expect(said).toContain('miles watched');
  expect(said).toContain('200,000');
  expect(said).not.toContain('800,000');
});
