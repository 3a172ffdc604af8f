import { describe, expect, test } from 'vitest';
import {
  drawFunnel,
  figureCaption,
  figureOf,
  findingCsv,
  findingTable,
  funnelSays,
  lightTheme,
  ratioAxis,
} from '../../lib/charts/index.ts';
import type { FigureOptions } from '../../lib/charts/figure.ts';
import type { Finding } from '../../shared/finding.ts';
import { estimate, handFinding } from './invented-findings.ts';
import { drawnElements, renderSvg, type Drawn } from './render.ts';

const options: FigureOptions = { width: 900, height: 400, theme: lightTheme, unitSystem: 'us' };
const ratio = (value: number | null, lower: number | null, upper: number | null) =>
  estimate(value, lower, upper, 'ratio');

const ranking = (): Finding => {
  const finding = handFinding('causes', {}, [
    {
      by: { deviation: 'nut-backed-off' },
      counts: { failuresWithout: 258, milesWithout: 1e8 },
      estimates: {
        hazardRatio: ratio(4, 2, 8),
        earlyHazardRatio: ratio(8, 3, 20),
        laterHazardRatio: ratio(2, 1, 4),
        sameVehicleHazardRatio: ratio(1.5, 1.2, 1.9),
        eValue: ratio(7, 3, null),
      },
    },
    {
      by: { deviation: 'gasket-reused' },
      counts: { failuresWithout: 960, milesWithout: 1e8 },
      estimates: { hazardRatio: ratio(1, 0.5, 2), sameVehicleHazardRatio: ratio(1.1, 0.6, 2) },
    },
    {
      by: { deviation: 'lock-not-engaged' },
      counts: { failuresWithout: 700, milesWithout: 1e8 },
      estimates: { hazardRatio: ratio(null, null, null) },
    },
  ]);
  const [first, ...rest] = finding.groups;
  const notes = ['Other side: within the same vehicle the ratio is 1.5; it disagrees with the adjusted ratio.'];
  return { ...finding, groups: [...(first ? [{ ...first, notes }] : []), ...rest] };
};

const shops = (): Finding => ({
  ...handFinding('shops', { by: ['shop'] }, [
    {
      by: { shop: 'Alder' },
      estimates: { observedToExpected: ratio(2, 1.5, 2.6), shrunkenRatio: ratio(1.8, 1.4, 2.4) },
    },
    { by: { shop: 'Birch' }, estimates: { observedToExpected: ratio(1, 0.8, 1.3), shrunkenRatio: ratio(1, 0.8, 1.2) } },
  ]),
  series: [
    {
      ...{ name: 'funnel limits', group: 'all' },
      columns: {
        ...{ expected: [1, 50, 100], lower95: [0.1, 0.7, 0.8], upper95: [4, 1.3, 1.2] },
        ...{ lower998: [0.01, 0.6, 0.7], upper998: [7, 1.5, 1.35] },
      },
    },
    { name: 'funnel', group: 'Alder', columns: { expected: [50], ratio: [2] } },
    { name: 'funnel', group: 'Birch', columns: { expected: [100], ratio: [1] } },
  ],
});

const draw = async (finding: Finding, changed: Partial<FigureOptions> = {}) => {
  const figure = figureOf(finding, { ...options, ...changed });
  const elements = drawnElements(await renderSvg(figure.spec));
  return { figure, elements, texts: elements.filter(({ tag }) => tag === 'text') };
};
const dots = (elements: readonly Drawn[]) =>
  elements.filter(({ attributes }) => attributes['stroke'] === lightTheme.series[0] && attributes['d']?.includes('A'));
const small = (elements: readonly Drawn[], fill: string | undefined) =>
  elements.filter(({ attributes }) => attributes['stroke'] === lightTheme.series[1] && attributes['fill'] === fill);

describe('an axis of ratios', () => {
  test('gives equal factors equal lengths, with 1 on it', () => {
    const { share, ticks } = ratioAxis([0.5, 4], [0.3, 9, 400]);
    expect(share(4) - share(2)).toBeCloseTo(share(2) - share(1), 12);
    expect(ticks).toContain(1);
    // A limit far beyond every value does not stretch the axis.
    expect(ticks).not.toContain(100);
  });
  test('holds 1 though every value lies to one side, and stands with none at all', () => {
    expect(ratioAxis([6, 9], []).ticks).toContain(1);
    expect(ratioAxis([], []).ticks).toContain(1);
    expect(ratioAxis([0, 0.2], []).share(0)).toBe(0);
  });
});

describe('the ranking of deviations', () => {
  test('draws each ratio as far from the line at 1 as its logarithm', async () => {
    const { elements, texts } = await draw(ranking());
    const [first, second, ...more] = dots(elements);
    expect(more).toEqual([]);
    const [one, two] = ['1', '2'].map((tick) => texts.find(({ text }) => text === tick)?.x ?? 0);
    const perDoubling = (two ?? 0) - (one ?? 0);
    expect((first?.x ?? 0) - (one ?? 0)).toBeCloseTo(2 * perDoubling, 0);
    expect(second?.x).toBeCloseTo(one ?? 0, 0);
  });
  test('marks the early and the later ratio beneath the dot', async () => {
    const { elements } = await draw(ranking());
    const [early] = small(elements, lightTheme.paper);
    const [later] = small(elements, lightTheme.series[1]);
    const [dot] = dots(elements);
    expect(early?.y).toBe(later?.y);
    expect(early?.y).toBeGreaterThan(dot?.y ?? Infinity);
    expect(early?.x).toBeGreaterThan(dot?.x ?? Infinity);
    expect(later?.x).toBeLessThan(dot?.x ?? 0);
  });
  test('says the ratio with its limits and how firm it is, and of what is not compared its failures', async () => {
    const { texts } = await draw(ranking());
    const said = texts.map(({ text }) => text);
    expect(said).toContain('4.00 (2.00–8.00) fair');
    expect(said).toContain('not compared: 18 failed');
    expect(said).toContain('nut backed off');
  });
  test('small, says of what is not compared its failures alone: no more has room', async () => {
    const { texts } = await draw(ranking(), { width: 366, height: 186, compact: true });
    expect(texts.map(({ text }) => text)).toContain('18 failed');
  });
  test('too few for a ratio: its bounds with an arrow at each end that goes on, and a caption that says so', async () => {
    const few = handFinding('shops', { by: ['shop'] }, [
      { by: { shop: 'Alder' }, estimates: { observedToExpected: ratio(null, 0.05, 3.6) } },
      { by: { shop: 'Birch' }, estimates: { observedToExpected: ratio(1, 0.8, 1.3) } },
    ]);
    const { texts, elements } = await draw(few);
    expect(texts.map(({ text }) => text)).toContain(`${few.groups[0]?.failures} failed; bounds 0.0500–3.60`);
    const triangle = /^M[^LA]*L[^LA]*L[^LA]*Z$/;
    expect(elements.filter(({ attributes }) => triangle.test(attributes['d'] ?? ''))).toHaveLength(2);
    expect(figureCaption(few, 'us')).toContain('A bar without a dot');
  });
  test('on the front page keeps the first of the ranking, not those with most miles', async () => {
    const { figure } = await draw(ranking(), { width: 366, height: 80, compact: true });
    expect(figure.labels.map(({ group }) => group)).toEqual(['nut-backed-off']);
    expect(figure.leftOut).toHaveLength(2);
  });
  test('has in its table what a reader takes in, a plain word where the other side disagrees, and in its CSV all', () => {
    const { columns, rows } = findingTable(ranking(), 'us');
    expect(columns.length).toBeLessThanOrEqual(12);
    const beside = columns.findIndex(({ key }) => key === 'sameVehicleHazardRatio');
    expect(rows[0]?.cells[beside]?.detail).toBe('1.20–1.90 disagrees');
    expect(rows[1]?.cells[beside]?.detail).toBe('0.600–2.00');
    expect(columns.map(({ key }) => key)).not.toContain('eValue');
    expect(findingCsv(ranking())).toMatch(/,eValue,7,/);
  });
});

describe('the funnel', () => {
  test('puts each shop at its expected failures, named, between lines at 95 and 99.8 %', async () => {
    const elements = drawnElements(await renderSvg(drawFunnel(shops(), options).spec));
    const texts = elements.filter(({ tag }) => tag === 'text');
    const points = elements.filter(({ attributes }) => attributes['fill'] === lightTheme.series[0]);
    expect(points).toHaveLength(2);
    const [zero, hundred] = ['0', '100'].map((tick) => texts.find(({ text }) => text === tick)?.x ?? 0);
    const wide = (hundred ?? 0) - (zero ?? 0);
    expect(points.map(({ x }) => Math.round(x - (zero ?? 0)))).toEqual([Math.round(wide / 2), Math.round(wide)]);
    expect(texts.map(({ text }) => text)).toEqual(expect.arrayContaining(['Alder', 'Birch']));
    expect(elements.filter(({ attributes }) => attributes['stroke-dasharray'] === '5,3')).toHaveLength(2);
  });
  test('names those outside the outer lines in its sentence, and nobody else', () => {
    // Alder: 2 where 1.5 is the outer line at 50 expected; Birch lies on 1.
    expect(funnelSays(shops())).toMatch(/Outside the outer lines: Alder \(2\.00\)\./);
    const calm = { ...shops(), series: shops().series.filter(({ group }) => group !== 'Alder') };
    expect(funnelSays(calm)).toMatch(/None lies outside/);
  });
});
