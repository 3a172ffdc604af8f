import type { TopLevelSpec } from 'vega-lite';
import { at, pixels } from './age-plot.ts';
import {
  doseData,
  doseSays,
  doseSpan,
  doseText,
  doseUnit,
  measuredSays,
  readingsIn,
  type DoseData,
} from './dose-data.ts';
import { figureFrame, type DrawFigure, type FigureOptions } from './figure.ts';
import { ratioAxis } from './ratio-axis.ts';
import { niceAxis } from './nice-axis.ts';
import { textWidth } from './text-width.ts';

interface Place {
  readonly width: number;
  readonly height: number;
  /** Of the curve, and of the readings beneath it. */
  readonly curve: number;
  readonly bars: number;
  readonly x: (value: number) => number;
}

/** Hazard over the value with its limits, the procedure's window through it, and what was written down beneath. */
export const drawDose: DrawFigure = (finding, options) => {
  const margin = { left: 52, right: 16, top: 44, bottom: 46 };
  const [width, height] = [Math.max(60, options.width - 68), options.height - margin.top - margin.bottom];
  const data = doseData(finding);
  const size = { width: options.width, height: options.height };
  const frame = figureFrame(margin, options.theme, doseSays(finding, options.unitSystem));
  const blank = { data: { values: [{ x: 0, y: 0 }] }, mark: { type: 'point', opacity: 0 }, encoding: at };
  const layer = data === null ? [blank] : doseLayers(data, { width, height }, options);
  return {
    ...{ spec: { ...frame, width, height, layer } as unknown as TopLevelSpec, ...size },
    ...{ labels: [], ticks: [], namesLeft: false, leftOut: [] },
  };
};

function doseLayers(data: DoseData, { width, height }: { width: number; height: number }, options: FigureOptions) {
  const { from, to } = doseSpan(data);
  const hazard = data.hazard.filter(({ value }) => value >= from && value <= to);
  const curve = hazard.length > 1 ? Math.round(height * 0.62) : 0;
  const x = (value: number) => (width * (Math.min(to, Math.max(from, value)) - from)) / (to - from);
  const place = { width, height, curve, bars: curve === 0 ? height : height - curve - 34, x };
  return [
    ...windowLayers(data, place, options),
    ...valueTicks(data, { from, to }, place, options),
    ...(curve === 0 ? [] : hazardLayers({ ...data, hazard }, place, options)),
    ...readingLayers(data, { from, to }, place, options),
  ];
}

const words = (values: readonly object[], mark: object) => ({
  data: { values },
  mark: { type: 'text', baseline: 'middle', fontSize: 12, ...mark },
  encoding: { ...at, text: { field: 'text' } },
});

function windowLayers(
  { least, most, nominal, quantity }: DoseData,
  place: Place,
  { theme, unitSystem }: FigureOptions,
) {
  const [left, right] = [place.x(least), place.x(most)];
  const says = `window ${doseText(least, quantity, unitSystem)} to ${doseText(most, quantity, unitSystem)} ${doseUnit(quantity, unitSystem).symbol}`;
  const half = textWidth(says, 12.5) / 2;
  const middle = Math.min(Math.max((left + right) / 2, half), place.width - half);
  return [
    {
      data: { values: [{ x: left, x2: right, y: 0, y2: place.height }] },
      mark: { type: 'rect', color: theme.accent, opacity: 0.1 },
      encoding: { ...at, x2: { field: 'x2' }, y2: { field: 'y2' } },
    },
    {
      data: { values: [least, most].map((value) => ({ x: place.x(value), y: -6, y2: place.height })) },
      mark: { type: 'rule', color: theme.accent, strokeWidth: 1.2 },
      encoding: { ...at, y2: { field: 'y2' } },
    },
    {
      data: { values: [{ x: place.x(nominal), y: 0, y2: place.height }] },
      mark: { type: 'rule', color: theme.accent, strokeWidth: 1, strokeDash: [2, 3] },
      encoding: { ...at, y2: { field: 'y2' } },
    },
    words([{ x: middle, y: -14, text: says }], { fontSize: 12.5, color: theme.accent, align: 'center' }),
  ];
}

function valueTicks(data: DoseData, { from, to }: { from: number; to: number }, place: Place, options: FigureOptions) {
  const { factor, symbol } = doseUnit(data.quantity, options.unitSystem);
  const most = Math.max(2, Math.floor(place.width / 80));
  const step = niceAxis((to - from) * factor, most).ticks[1] ?? 1;
  const first = Math.ceil((from * factor) / step);
  const count = Math.floor((to * factor) / step) - first + 1;
  const ticks = Array.from({ length: Math.max(0, count) }, (_, index) => ((first + index) * step) / factor);
  return [
    words(
      ticks.map((tick) => ({
        x: place.x(tick),
        y: place.height + 14,
        text: doseText(tick, data.quantity, options.unitSystem),
      })),
      { color: options.theme.ink2 },
    ),
    words([{ x: place.width / 2, y: place.height + 34, text: `${measuredSays(data.quantity)} (${symbol})` }], {
      fontSize: 12.5,
      color: options.theme.ink2,
    }),
  ];
}

function hazardLayers({ hazard }: DoseData, place: Place, { theme }: FigureOptions) {
  const scale = ratioAxis(
    hazard.map(({ ratio }) => ratio),
    hazard.flatMap(({ lower, upper }) => [lower ?? 0, upper ?? Infinity]),
  );
  const y = (ratio: number) => place.curve * (1 - scale.share(ratio));
  const told = hazard.map(({ value, ratio, lower, upper }) => ({
    ...{ x: place.x(value), y: y(ratio), low: y(lower ?? 0), high: y(upper ?? Infinity) },
    ...{ short: (lower ?? 0) < scale.start * 0.999, past: (upper ?? Infinity) > scale.end * 1.001 },
  }));
  const colour = theme.series[0];
  const long = 'times the hazard at the middle of the window, adjusted';
  return [
    {
      data: { values: scale.ticks.map((tick) => ({ x: 0, x2: place.width, y: y(tick) })) },
      mark: { type: 'rule', color: theme.hair, strokeWidth: 0.8 },
      encoding: { ...at, x2: { field: 'x2' } },
    },
    {
      data: { values: [{ x: 0, x2: place.width, y: y(1) }] },
      mark: { type: 'rule', color: theme.ink2, strokeWidth: 1.2 },
      encoding: { ...at, x2: { field: 'x2' } },
    },
    words(
      scale.ticks.map((tick) => ({ x: -8, y: y(tick), text: `${tick}×` })),
      { align: 'right', color: theme.ink2 },
    ),
    words([{ x: -48, y: -34, text: textWidth(long, 12.5) <= place.width + 56 ? long : 'times the hazard, adjusted' }], {
      ...{ fontSize: 12.5, align: 'left', color: theme.ink2 },
    }),
    {
      data: { values: told },
      mark: { type: 'area', color: colour, opacity: 0.18 },
      encoding: { x: pixels('x'), y: pixels('low'), y2: { field: 'high' } },
    },
    {
      data: { values: told },
      mark: { type: 'line', color: colour, strokeWidth: 2 },
      encoding: { ...at, order: pixels('x') },
    },
    ...goesOn(told, ({ past }) => past, { y: 7, shape: 'triangle-up', color: colour }),
    ...goesOn(told, ({ short }) => short, { y: place.curve - 7, shape: 'triangle-down', color: colour }),
  ];
}

/** An arrow in the middle of every stretch where the limits run out of the axis. */
function goesOn<Point extends { readonly x: number }>(
  points: readonly Point[],
  isBeyond: (point: Point) => boolean,
  { y, ...look }: { readonly y: number; readonly shape: string; readonly color: string | undefined },
) {
  const stretches: Point[][] = [];
  points.forEach((point, index) => {
    if (!isBeyond(point)) return;
    const before = points[index - 1];
    if (before !== undefined && isBeyond(before)) stretches.at(-1)?.push(point);
    else stretches.push([point]);
  });
  const middle = (all: readonly Point[]) => ((all[0]?.x ?? 0) + (all.at(-1)?.x ?? 0)) / 2;
  const values = stretches.map((all) => ({ x: middle(all), y }));
  return values.length === 0
    ? []
    : [{ data: { values }, mark: { type: 'point', filled: true, opacity: 1, size: 70, ...look }, encoding: at }];
}

/** Lives at each value written down; the highest says how many of all it holds. */
function readingLayers(
  data: DoseData,
  { from, to }: { from: number; to: number },
  place: Place,
  options: FigureOptions,
) {
  const { theme, unitSystem } = options;
  const shown = data.readings.filter(({ value }) => value >= from && value <= to);
  const most = Math.max(1, ...shown.map(({ lives }) => lives));
  const tall = (lives: number) => (Math.max(0, place.bars - 18) * lives) / most;
  const bar = (lives: number, value: number) => ({
    x: place.x(value),
    y: place.height,
    y2: place.height - tall(lives),
  });
  const highest = shown.find(({ lives }) => lives === most);
  const says =
    highest === undefined
      ? ''
      : `${most.toLocaleString('en-US')} of ${readingsIn(data).toLocaleString('en-US')} lives read exactly ${doseText(highest.value, data.quantity, unitSystem)}`;
  const width = textWidth(says, 12.5);
  const middle = Math.min(Math.max(place.x(highest?.value ?? from), width / 2), place.width - width / 2);
  const rule = (values: readonly object[], color: string | undefined, strokeWidth: number) => ({
    ...{ data: { values }, mark: { type: 'rule', color, strokeWidth } },
    encoding: { ...at, y2: { field: 'y2' } },
  });
  const layers = [
    rule([{ x: 0, y: place.height, y2: place.height }], theme.ink2, 1),
    rule(
      shown.map(({ value, lives }) => bar(lives, value)),
      theme.series[0],
      3,
    ),
    rule(
      shown.filter(({ failures }) => failures > 0).map(({ value, failures }) => bar(failures, value)),
      theme.ink,
      3,
    ),
    words([{ x: middle, y: place.height - tall(most) - 9, text: says }], {
      ...{ align: 'center', fontSize: 12.5, color: theme.ink },
    }),
  ];
  return layers.filter(({ data: { values } }) => values.length > 0);
}
