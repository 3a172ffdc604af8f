import { describe, expect, test } from 'vitest';
import type { FigureOptions } from '../../lib/charts/figure.ts';
import { figureOf, lightTheme, pageTheme } from '../../lib/charts/index.ts';
import { textWidth } from '../../lib/charts/text-width.ts';
import { handFinding, threeRoles } from './invented-findings.ts';
import { drawnElements, renderSvg } from './render.ts';

const options: FigureOptions = { width: 820, height: 400, theme: lightTheme, unitSystem: 'us' };

async function draw(finding = threeRoles(), changed: Partial<FigureOptions> = {}) {
  const figure = figureOf(finding, { ...options, ...changed });
  const svg = await renderSvg(figure.spec);
  return { figure, svg, elements: drawnElements(svg) };
}

describe('life curves', () => {
  test('draw a step line and a band for each group, each with its own colour and dash', async () => {
    const { elements } = await draw();
    const lines = elements.filter(
      ({ tag, attributes }) => tag === 'path' && attributes['stroke-dasharray'] && attributes['d']?.startsWith('M'),
    );
    const curves = lines.filter(({ attributes }) => attributes['stroke'] !== lightTheme.accent);
    expect(curves.map(({ attributes }) => attributes['stroke'])).toEqual(lightTheme.series.slice(0, 3));
    expect(new Set(curves.map(({ attributes }) => attributes['stroke-dasharray'])).size).toBe(3);
    // A step only ever runs level or upright: no segment changes both coordinates at once.
    for (const { attributes } of curves) {
      const points = [...(attributes['d'] ?? '').matchAll(/[ML](-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => [x, y]);
      points
        .slice(1)
        .forEach(([x, y], index) => expect(x === points[index]?.[0] || y === points[index]?.[1]).toBe(true));
    }
    const bands = elements.filter(
      ({ attributes }) => attributes['opacity'] === '0.14' && attributes['fill'] !== 'none',
    );
    expect(bands.length).toBe(3);
  });

  test('name every curve at its end without two names touching, even where curves end together', async () => {
    const many = handFinding(
      'seal-life',
      { by: ['shop'] },
      ['Thornby', 'Lowfield', 'Stonegate', 'Harrow', 'Millbrook', 'Westing', 'Oakley', 'Brigg'].map((shop) => ({
        ...{ by: { shop }, curve: { mean: 500_000, end: 250_000 }, estimates: {} },
      })),
    );
    const { figure, elements } = await draw(many);
    const names = elements.filter(({ tag, text }) => tag === 'text' && /^[A-Z][a-z]+$/.test(text));
    expect(names.map(({ text }) => text)).toEqual(figure.labels.map(({ says }) => says));
    const tops = names.map(({ y }) => y).sort((a, b) => a - b);
    tops.slice(1).forEach((y, index) => expect(y - (tops[index] ?? 0)).toBeGreaterThanOrEqual(23.9));
    for (const { x, text } of names) expect(x + textWidth(text, 13)).toBeLessThanOrEqual(figure.width);
    // The page lays a button over each name: it must lie where the name is drawn.
    names.forEach(({ y }, index) => expect(Math.abs(y - ((figure.labels[index]?.y ?? 0) + 12))).toBeLessThan(6));
  });

  test('mark the horizon as a dotted line at its miles, and not where it lies past every curve', async () => {
    const { figure, elements } = await draw();
    const dotted = elements.filter(({ attributes }) => attributes['stroke'] === lightTheme.accent);
    expect(dotted.map(({ attributes }) => attributes['stroke-dasharray'])).toEqual(['2,3']);
    expect(dotted[0]?.x).toBeCloseTo(figure.ticks.find(({ age }) => age === 100_000)?.x ?? Number.NaN, 0);
    const far = await draw(threeRoles({ horizonMiles: 900_000 }));
    expect(far.elements.some(({ attributes }) => attributes['stroke'] === lightTheme.accent)).toBe(false);
  });

  test('say the unit in the axis title and follow the units chosen', async () => {
    const us = await draw();
    expect(us.svg).toContain('miles since installation');
    const metric = await draw(threeRoles(), { unitSystem: 'metric' });
    expect(metric.svg).toContain('kilometres since installation');
    // Numbers at risk are told at 100,000 and 200,000 miles: 160,934 and 321,869 km (1 mi = 1.609344 km).
    expect(metric.figure.ticks.map(({ text }) => text)).toEqual(['0', '160,934', '321,869']);
    // 300,000 miles are 482,803 km: the last round tick is 400,000 km.
    const compact = await draw(threeRoles(), { unitSystem: 'metric', compact: true, width: 366, height: 190 });
    expect(compact.figure.ticks.at(-1)?.text).toBe('400k');
    expect(compact.figure.ticks.at(-1)?.age).toBeCloseTo(400_000 / 1.609344, 6);
  });

  test('write numbers at risk straight under their ticks in a figure that leaves the page', async () => {
    const { figure, elements } = await draw(threeRoles(), { atRisk: true, height: 460 });
    const tick = figure.ticks.find(({ age }) => age === 100_000);
    const counts = elements.filter(({ tag, text }) => tag === 'text' && text === '60');
    expect(counts).toHaveLength(3);
    for (const count of counts) expect(count.x).toBeCloseTo(tick?.x ?? Number.NaN, 0);
    const axis = elements.find(({ text }) => text === 'miles since installation');
    for (const count of counts) {
      expect(count.y).toBeGreaterThan(axis?.y ?? Number.NaN);
      expect(count.y).toBeLessThan(460);
    }
  });

  test('stay light: never more points than can be seen, and the ends kept', async () => {
    const heavy = handFinding('seal-life', {}, [
      { by: {}, curve: { mean: 4e5, end: 3e5, points: 20_000 }, estimates: {} },
    ]);
    const { figure, svg } = await draw(heavy, { width: 366, height: 190, compact: true });
    const values = JSON.stringify(figure.spec).match(/"survival":/g)?.length ?? 0;
    expect(values).toBeGreaterThan(100);
    expect(values).toBeLessThanOrEqual(400);
    expect(svg).toContain('300k');
  });

  test('draw one group without a name, and none without falling over', async () => {
    const one = await draw(handFinding('seal-life', {}, [{ by: {}, curve: { mean: 4e5, end: 3e5 }, estimates: {} }]));
    expect(one.figure.labels).toEqual([]);
    const none = await draw(handFinding('seal-life', {}, [{ by: {}, estimates: {} }]));
    expect(none.figure.leftOut).toEqual(['all of them']);
    expect(none.figure.leftOutWhy).toMatch(/too few/);
    const sided = handFinding('seal-life', {}, [{ by: { dev_nut_backed_off: 'yes' }, estimates: {} }]);
    expect((await draw(sided)).figure.leftOut).toEqual(['nut backed off: yes']);
  });

  test('take colours from the page where the page draws it', async () => {
    const { svg } = await draw(threeRoles(), { theme: pageTheme });
    expect(svg).toContain('stroke="var(--s1)"');
    expect(svg.match(/#[0-9a-f]{3,6}\b/g)).toBeNull();
  });
});
