import type { TopLevelSpec } from 'vega-lite';
import type { Finding } from '../../shared/finding.ts';
import { figureFrame, type DrawFigure, type FigureOptions } from './figure.ts';
import { ticksWithin } from './nice-axis.ts';
import { groupSays } from './plain-words.ts';
import { ratioAxis } from './ratio-axis.ts';
import { ratioSays } from './ratio-says.ts';
import { spreadLabels } from './spread-labels.ts';
import { textWidth } from './text-width.ts';
import { percentSign } from '../../shared/percent-sign.ts';

const pixels = (field: string) => ({ field, type: 'quantitative', scale: null, axis: null });
const at = { x: pixels('x'), y: pixels('y') };

interface Point {
  readonly says: string;
  readonly expected: number;
  readonly ratio: number;
}

function pointsOf({ series, groups }: Finding): Point[] {
  return series
    .filter(({ name }) => name === 'funnel')
    .flatMap(({ group, columns }) => {
      const [expected, ratio] = [columns['expected']?.[0], columns['ratio']?.[0]];
      const own = groups.find(({ label }) => label === group);
      if (expected == null || ratio == null || ratio <= 0 || expected <= 0) return [];
      return [{ says: own ? groupSays(own.by) : group, expected, ratio }];
    });
}

/** What the funnel shows, in a sentence that names those outside its outer limits. */
export function funnelSays(finding: Finding): string {
  const limits = finding.series.find(({ name }) => name === 'funnel limits')?.columns;
  const [expected, lower, upper] = ['expected', 'lower998', 'upper998'].map((name) => limits?.[name] ?? []);
  const outside = pointsOf(finding).filter((point) => {
    const place = (expected ?? []).findIndex((value) => (value ?? 0) >= point.expected);
    const [low, high] = [lower?.[place], upper?.[place]];
    return low != null && high != null && (point.ratio < low || point.ratio > high);
  });
  const named = outside.map(({ says, ratio }) => `${says} (${ratioSays(ratio, null, null)})`).join(', ');
  return `Failures over those expected of like work against the failures expected, a dot for each; dashed and whole lines are where 95 and 99.8${percentSign} would lie were none different. ${named === '' ? 'None lies outside the outer lines.' : `Outside the outer lines: ${named}.`}`;
}

/** The funnel: ratio against what is expected, with the limits that chance, vehicles and the error of the expected set. */
export const drawFunnel: DrawFigure = (finding, options) => {
  const points = pointsOf(finding);
  const limits = finding.series.find(({ name }) => name === 'funnel limits')?.columns ?? {};
  const named = Math.max(0, ...points.map(({ says }) => textWidth(says, 13)));
  const margin = { left: 52, right: Math.min(options.width * 0.36, named + 26), top: 12, bottom: 46 };
  const [width, height] = [Math.max(60, options.width - margin.left - margin.right), options.height - 58];
  const reach = Math.max(1, ...points.map(({ expected }) => expected)) * 1.06;
  const y = ratioAxis([0.5, 2, ...points.map(({ ratio }) => ratio)], []);
  const place = { width, height, reach, y: (ratio: number) => height * (1 - y.share(ratio)) };
  const ticks = ticksWithin(reach, Math.max(3, Math.floor(width / 90)));
  const layer = [
    ...gridLayers(place, ticks, y.ticks, options),
    ...limitLayers(limits, place, y, options),
    ...pointLayers(points, place, options),
  ];
  const spec = { ...figureFrame(margin, options.theme, funnelSays(finding)), width, height, layer };
  return {
    ...{ spec: spec as unknown as TopLevelSpec, width: options.width, height: options.height },
    ...{ labels: [], ticks: [], namesLeft: false, leftOut: [] },
  };
};

interface Place {
  readonly width: number;
  readonly height: number;
  readonly reach: number;
  readonly y: (ratio: number) => number;
}

function gridLayers(place: Place, across: readonly number[], up: readonly number[], { theme }: FigureOptions) {
  const { width, height, reach, y } = place;
  const text = { type: 'text', fontSize: 12, color: theme.ink2 };
  const words = [
    ...across.map((tick) => ({ x: (width * tick) / reach, y: height + 14, text: tick.toLocaleString('en-US') })),
    { x: width / 2, y: height + 34, text: 'failures expected of like work' },
  ];
  return [
    {
      data: { values: up.map((tick) => ({ x: 0, x2: width, y: y(tick), one: tick === 1 })) },
      mark: { type: 'rule', color: theme.hair, strokeWidth: 0.8 },
      encoding: { ...at, x2: { field: 'x2' } },
    },
    {
      data: { values: [{ x: 0, x2: width, y: y(1) }] },
      mark: { type: 'rule', color: theme.ink2, strokeWidth: 1.2 },
      encoding: { ...at, x2: { field: 'x2' } },
    },
    {
      data: { values: up.map((tick) => ({ x: -8, y: y(tick), text: `${tick}×` })) },
      mark: { ...text, align: 'right', baseline: 'middle' },
      encoding: { ...at, text: { field: 'text' } },
    },
    { data: { values: words }, mark: text, encoding: { ...at, text: { field: 'text' } } },
  ];
}

function limitLayers(
  limits: Readonly<Record<string, readonly (number | null)[]>>,
  place: Place,
  { start, end }: { readonly start: number; readonly end: number },
  { theme }: FigureOptions,
) {
  const expected = limits['expected'] ?? [];
  const line = (name: string, strokeDash: readonly number[]) => ({
    data: {
      values: expected.flatMap((value, index) => {
        const limit = limits[name]?.[index];
        if (value == null || limit == null || limit < start || limit > end) return [];
        const [before, beforeLimit] = [expected[index - 1], limits[name]?.[index - 1]];
        if (value <= place.reach) return [{ x: (place.width * value) / place.reach, y: place.y(limit) }];
        // The first step past the axis: the line ends at the edge, on its way there.
        if (before == null || beforeLimit == null || before > place.reach) return [];
        const at = beforeLimit + ((limit - beforeLimit) * (place.reach - before)) / (value - before);
        return [{ x: place.width, y: place.y(at) }];
      }),
    },
    mark: { type: 'line', color: theme.ink2, strokeWidth: 1, strokeDash },
    encoding: { ...at, order: pixels('x') },
  });
  return [
    ...['lower95', 'upper95'].map((name) => line(name, [5, 3])),
    ...['lower998', 'upper998'].map((name) => line(name, [1, 0])),
  ].filter(({ data }) => data.values.length > 1);
}

function pointLayers(points: readonly Point[], place: Place, { theme }: FigureOptions) {
  const dots = points.map(({ says, expected, ratio }) => ({
    ...{ says, x: (place.width * expected) / place.reach, y: place.y(ratio) },
  }));
  const heights = spreadLabels(
    dots.map(({ y }) => y),
    16,
    4,
    place.height - 4,
  );
  const names = dots.map(({ says, x, y }, index) => ({
    text: says,
    x1: x + 6,
    y1: y,
    x: place.width + 12,
    y: heights[index],
  }));
  return [
    {
      data: { values: names.map((name) => ({ ...name, x: place.width + 8 })) },
      mark: { type: 'rule', color: theme.hair, strokeWidth: 0.8 },
      encoding: { x: pixels('x1'), y: pixels('y1'), x2: { field: 'x' }, y2: { field: 'y' } },
    },
    {
      data: { values: dots },
      mark: { type: 'point', filled: true, opacity: 1, size: 62, color: theme.series[0] },
      encoding: at,
    },
    {
      data: { values: names },
      mark: { type: 'text', align: 'left', baseline: 'middle', fontSize: 13, color: theme.ink },
      encoding: { ...at, text: { field: 'text' } },
    },
  ];
}
