import type { Finding } from '../../shared/finding.ts';
import { displayUnit } from '../../shared/units.ts';
import type { AxisTick, FigureLabel, FigureOptions, Margin } from './figure.ts';
import { numbersAtRisk, type LifeCurve } from './life-curve-data.ts';
import { niceAxis } from './nice-axis.ts';
import { spreadLabels } from './spread-labels.ts';
import { fitText, textWidth } from './text-width.ts';

export const labelSize = 13;
export const swatch = 22;
export const riskRow = 19;
const labelGap = 18;

/** Everything about a life-curve figure that is known before anything is drawn; ages in shown units. */
export interface LifeCurveFrame {
  readonly margin: Margin;
  readonly plot: { readonly width: number; readonly height: number };
  /** Shown units per mile, and the age at the right edge. */
  readonly factor: number;
  readonly end: number;
  readonly x: (shown: number) => number;
  readonly ticks: readonly AxisTick[];
  readonly labels: readonly FigureLabel[];
  /** Rows of numbers at risk written into the figure. */
  readonly riskRows: number;
}

function marginFor(drawn: readonly LifeCurve[], named: boolean, riskRows: number, options: FigureOptions): Margin {
  const widest = Math.max(0, ...drawn.map(({ says }) => textWidth(says, labelSize)));
  const right = named ? Math.min(options.width * 0.36, swatch + 14 + widest) : 24;
  const usual = options.compact ? 44 : 52;
  const left = riskRows > 0 ? Math.max(usual, Math.min(options.width * 0.22, widest + 36)) : usual;
  const bottom = 46 + (riskRows > 0 ? 24 + riskRows * riskRow : 0);
  return { left, right, top: options.compact ? 12 : 34, bottom };
}

export function lifeCurveFrame(finding: Finding, drawn: readonly LifeCurve[], options: FigureOptions): LifeCurveFrame {
  const named = drawn.some(({ group }) => group !== 'all');
  const riskRows = options.atRisk ? numbersAtRisk(finding, []).length : 0;
  const margin = marginFor(drawn, named, riskRows, options);
  const width = Math.max(60, options.width - margin.left - margin.right);
  const plot = { width, height: Math.max(60, options.height - margin.top - margin.bottom) };
  const { factor } = displayUnit('miles', options.unitSystem);
  // The axis ends where the longest curve does: no width is spent on ages nobody reached.
  const end = Math.max(1, ...drawn.map((curve) => curve.end.miles)) * factor;
  const x = (shown: number) => (width * shown) / end;
  const places = spreadLabels(
    drawn.map((curve) => plot.height * (1 - curve.end.survival)),
    ...([labelGap, 6, plot.height - 6] as const),
  );
  const labels = drawn.map(({ group, says }, index) => ({
    ...{ group, says: fitText(says, labelSize, margin.right - swatch - 8) },
    ...{ x: options.width - margin.right + 4, y: margin.top + (places[index] ?? 0) - labelGap / 2 },
    ...{ width: margin.right - 4, height: labelGap },
  }));
  return {
    margin,
    plot,
    factor,
    end,
    x,
    ticks: milesTicks(end, factor, x, margin, options),
    labels: named ? labels : [],
    riskRows,
  };
}

function milesTicks(
  end: number,
  factor: number,
  x: (shown: number) => number,
  margin: Margin,
  options: FigureOptions,
): AxisTick[] {
  const plotWidth = x(end);
  const most = Math.max(2, Math.min(8, Math.floor(plotWidth / (options.compact ? 46 : 74))));
  const text = (shown: number) =>
    options.compact && shown >= 1000 ? `${shown / 1000}k` : shown.toLocaleString('en-US');
  return niceAxis(end, most)
    .ticks.filter((shown) => shown <= end * 1.0001)
    .map((shown) => ({ miles: shown / factor, text: text(shown), x: margin.left + x(shown) }));
}
