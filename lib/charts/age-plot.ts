import type { Finding } from '../../shared/finding.ts';
import { displayUnit } from '../../shared/units.ts';
import { horizonOf } from '../../shared/view.ts';
import type { FigureOptions } from './figure.ts';
import { niceAxis, ticksWithin } from './nice-axis.ts';

export const pixels = (field: string) => ({ field, type: 'quantitative', scale: null, axis: null });
export const at = { x: pixels('x'), y: pixels('y') };

/** Where a plot of something that grows with age lies, in pixels from the drawing's left upper corner. */
export interface AgePlot {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Stored age, and share or mean, to pixels. */
  readonly x: (age: number) => number;
  readonly y: (value: number) => number;
  readonly ageTicks: readonly number[];
  readonly valueTicks: readonly number[];
  /** Stored to shown ages. */
  readonly factor: number;
}

export interface AgeSpan {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Farthest age, in stored units, and largest value. */
  readonly age: number;
  readonly most: number;
}

export function agePlot({ settings }: Finding, span: AgeSpan, { unitSystem }: FigureOptions): AgePlot {
  const { left, top, width, height, age } = span;
  const factor = settings.axis === 'months' ? 1 : displayUnit('miles', unitSystem).factor;
  const values = niceAxis(span.most, Math.max(2, Math.floor(height / 45)));
  const ages = ticksWithin(age * factor, Math.max(2, Math.floor(width / 74)));
  return {
    ...{ left, top, width, height, factor },
    x: (stored) => left + (width * Math.min(stored, age)) / age,
    y: (value) => top + height * (1 - Math.min(value, values.end) / values.end),
    ageTicks: ages.map((tick) => tick / factor),
    valueTicks: values.ticks,
  };
}

/** What ages are counted in, as an axis title. */
export const ageTitle = ({ settings }: Finding, { unitSystem }: FigureOptions, since: string): string =>
  `${settings.axis === 'months' ? 'months' : unitSystem === 'us' ? 'miles' : 'kilometres'} ${since}`;

/** Grid, ticks and the reader's horizon. */
export function agePlotLayers(
  finding: Finding,
  plot: AgePlot,
  write: (value: number) => string,
  options: FigureOptions,
) {
  const { theme } = options;
  const { left, top, width, height, x, y, factor } = plot;
  const text = { type: 'text', fontSize: 12, color: theme.ink2 };
  const horizon = horizonOf(finding.settings);
  const rule = { x: x(horizon), y: top, y2: top + height };
  return [
    {
      data: { values: plot.valueTicks.map((tick) => ({ x: left, x2: left + width, y: y(tick) })) },
      mark: { type: 'rule', color: theme.hair, strokeWidth: 0.8 },
      encoding: { ...at, x2: { field: 'x2' } },
    },
    {
      data: { values: plot.valueTicks.map((tick) => ({ x: left - 8, y: y(tick), text: write(tick) })) },
      mark: { ...text, align: 'right', baseline: 'middle' },
      encoding: { ...at, text: { field: 'text' } },
    },
    {
      data: {
        values: plot.ageTicks.map((tick) => ({
          ...{ x: x(tick), y: top + height + 14, text: Math.round(tick * factor).toLocaleString('en-US') },
        })),
      },
      mark: text,
      encoding: { ...at, text: { field: 'text' } },
    },
    {
      data: { values: rule.x < left + width - 1 ? [rule] : [] },
      mark: { type: 'rule', color: theme.accent, strokeDash: [2, 3], strokeWidth: 1.2 },
      encoding: { ...at, y2: { field: 'y2' } },
    },
  ].filter(({ data }) => data.values.length > 0);
}

export interface StepPoint {
  readonly age: number;
  readonly value: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** A line with its limits as a band, in steps or smooth. */
export function stepLayers(
  points: readonly StepPoint[],
  plot: AgePlot,
  colour: string,
  { dash, interpolate }: { readonly dash: readonly number[]; readonly interpolate: 'step-after' | 'linear' },
) {
  const told = points.map(({ age, value, lower, upper }) => ({
    ...{ x: plot.x(age), y: plot.y(value) },
    ...{ low: lower === null ? null : plot.y(lower), high: upper === null ? null : plot.y(upper) },
  }));
  return [
    {
      data: { values: told.filter(({ low, high }) => low !== null && high !== null) },
      mark: { type: 'area', interpolate, color: colour, opacity: 0.14 },
      encoding: { x: pixels('x'), y: pixels('low'), y2: { field: 'high' } },
    },
    {
      data: { values: told },
      mark: { type: 'line', interpolate, color: colour, strokeWidth: 2, strokeDash: dash },
      encoding: { ...at, order: pixels('x') },
    },
  ].filter(({ data }) => data.values.length > 1);
}
