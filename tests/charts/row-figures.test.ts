import { describe, expect, test } from 'vitest';
import type { FigureOptions } from '../../lib/charts/figure.ts';
import { figureOf, lightTheme } from '../../lib/charts/index.ts';
import { estimate, fourRates, handFinding, soaked } from './invented-findings.ts';
import { drawnElements, renderSvg, type Drawn } from './render.ts';

const options: FigureOptions = { width: 820, height: 400, theme: lightTheme, unitSystem: 'us' };
const blue = lightTheme.series[0];

async function draw(finding = fourRates(), changed: Partial<FigureOptions> = {}) {
  const figure = figureOf(finding, { ...options, ...changed });
  const elements = drawnElements(await renderSvg(figure.spec));
  return { figure, elements, texts: elements.filter(({ tag }) => tag === 'text') };
}

const circles = (elements: readonly Drawn[]) =>
  elements.filter(({ attributes }) => attributes['stroke'] === blue && attributes['d']?.includes('A'));
const bars = (elements: readonly Drawn[]) =>
  elements.filter(({ tag, attributes }) => tag === 'line' && attributes['opacity'] === '0.3');
/** Length of a bar, from the end that Vega writes as an attribute of the line. */
const length = (bar: Drawn | undefined) => Math.abs(Number(bar?.attributes['x2']));

describe('rates in rows', () => {
  test('draw a dot on its interval for each group, all on one axis from zero', async () => {
    const { elements, texts } = await draw();
    const dots = circles(elements);
    expect(dots).toHaveLength(3);
    const zero = texts.find(({ text }) => text === '0');
    const two = texts.find(({ text }) => text === '2.0');
    const scale = ((two?.x ?? 0) - (zero?.x ?? 0)) / 2;
    expect((dots[0]?.x ?? 0) - (zero?.x ?? 0)).toBeCloseTo(2.59 * scale, 0);
    expect(length(bars(elements)[0])).toBeCloseTo((2.9 - 2.3) * scale, 0);
  });

  test('show no failures as a hollow dot at zero and a bound past the axis as an arrow', async () => {
    const { elements, texts } = await draw();
    const hollow = circles(elements).filter(({ attributes }) => attributes['fill'] === lightTheme.paper);
    expect(hollow).toHaveLength(1);
    const arrows = elements.filter(
      ({ attributes }) => attributes['fill'] === blue && /^M[^A]*Z$/.test(attributes['d'] ?? ''),
    );
    expect(arrows).toHaveLength(1);
    expect(arrows[0]?.y).toBe(hollow[0]?.y);
    // What the arrow stands for is told in words: the exact bound.
    expect(texts.some(({ text }) => text === '0 (0–46.0)')).toBe(true);
  });

  test('say "cannot tell" where there is neither value nor limit', async () => {
    const { texts, figure } = await draw();
    const cannot = texts.find(({ text }) => text === 'cannot tell');
    expect(cannot?.y).toBeCloseTo((figure.labels[3]?.y ?? 0) + 14, -1);
  });

  test('name rows in plain words, with what they are cut by above and the unit in the axis title', async () => {
    const { texts } = await draw();
    const said = texts.map(({ text }) => text);
    expect(said).toEqual(expect.arrayContaining(['trailer · oil', 'tag · not known', 'axle role · lubricant']));
    expect(said).toContain('failures per million wheel-end mi');
    const metric = await draw(fourRates(), { unitSystem: 'metric' });
    expect(metric.texts.map(({ text }) => text)).toContain('failures per million wheel-end km');
    // 2.59 per million miles are 2.59 / 1.609344 = 1.61 per million km.
    expect(metric.texts.some(({ text }) => text.startsWith('1.61 ('))).toBe(true);
  });

  test('leave out the groups with the fewest miles where there is no room, and say which', async () => {
    const many = handFinding(
      'mean-miles',
      { by: ['unit_id'] },
      Array.from({ length: 40 }, (_, index) => ({
        ...{ by: { unit_id: `U${index}` } },
        estimates: { failuresPerMillionMiles: estimate(1, 0.5, 2, 'per million miles') },
      })),
    );
    const full = await draw(many);
    expect(full.figure.labels).toHaveLength(24);
    expect(full.figure.leftOut).toContain('U39');
    const compact = await draw(many, { width: 366, height: 216, compact: true });
    expect(compact.figure.labels.length + compact.figure.leftOut.length).toBe(40);
    expect(compact.figure.height).toBeLessThanOrEqual(216);
  });
});

describe('contamination', () => {
  test('draws both parts on the same rows, each with its axis', async () => {
    const { elements, texts } = await draw(soaked());
    expect(circles(elements)).toHaveLength(4);
    const said = texts.map(({ text }) => text);
    expect(said).toContain('soaked linings per million wheel-end mi');
    expect(said).toContain('% of seal leaks that reached the lining');
    const rows = new Set(circles(elements).map(({ y }) => Math.round(y)));
    expect(rows.size).toBe(2);
  });

  test('bounds the share by what the unknown could have been, dotted', async () => {
    const { elements, texts } = await draw(soaked());
    const bounds = elements.filter(({ attributes }) => attributes['stroke-dasharray'] === '2,2');
    expect(bounds).toHaveLength(1);
    const [from, to] = [texts.findLast(({ text }) => text === '0'), texts.find(({ text }) => text === '40')];
    const perPercent = ((to?.x ?? 0) - (from?.x ?? 0)) / 40;
    expect(length(bounds[0])).toBeCloseTo((45 - 38) * perPercent, 0);
  });

  test('keeps its titles apart where the figure is narrow', async () => {
    const { texts } = await draw(soaked(), { width: 358 });
    const [left, right] = ['per million mi', '% of seal leaks'].map((title) =>
      texts.find(({ text }) => text === title),
    );
    expect((right?.x ?? 0) - (left?.x ?? 0)).toBeGreaterThan(90);
  });
});
