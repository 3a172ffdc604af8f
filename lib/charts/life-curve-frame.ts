import type { Finding } from '../../shared/finding.ts';
import { displayUnit } from '../../shared/units.ts';
import type { AxisTick, FigureLabel, FigureOptions, Margin } from './figure.ts';
import { ages, numbersAtRisk, type LifeCurve } from './life-curve-data.ts';
import { ticksWithin } from './nice-axis.ts';
import { spreadLabels } from './spread-labels.ts';
import { fitText, textWidth } from './text-width.ts';

export const labelSize = 13;
export const swatch = 22;
export const riskRow = 19;
/** Names are pressed too: a target is 24 pixels high (WCAG 2.2, 2.5.8). */
const labelGap = 24;

/** Everything about a life-curve figure that is known before anything is drawn; ages in shown units. */
export interface LifeCurveFrame {
  readonly margin: Margin;
  readonly plot: { readonly width: number; readonly height: number };
  /** Shown units per mile (1 for months), and the age at the right edge. */
  readonly factor: number;
  readonly end: number;
  readonly x: (shown: number) => number;
  readonly ticks: readonly AxisTick[];
  readonly labels: readonly FigureLabel[];
  /** Rows of numbers at risk written into the figure. */
  readonly riskRows: number;
  /** The left margin holds the names of the rows at risk, in the figure or under it on the page. */
  readonly namesLeft: boolean;
}

const leastForNames = 640;

function marginFor(drawn: readonly LifeCurve[], namesLeft: boolean, riskRows: number, options: FigureOptions): Margin {
  const widest = Math.max(0, ...drawn.map(({ says }) => textWidth(says, labelSize)));
  const named = drawn.some(({ group }) => group !== 'all');
  const right = named ? Math.min(options.width * 0.36, swatch + 14 + widest) : 24;
  const usual = options.compact ? 44 : 52;
  const left = namesLeft ? Math.max(usual, Math.min(options.width * 0.24, widest + 34)) : usual;
  const bottom = 46 + (riskRows > 0 ? 24 + riskRows * riskRow : 0);
  return { left, right, top: options.compact ? 12 : 34, bottom };
}

export function lifeCurveFrame(finding: Finding, drawn: readonly LifeCurve[], options: FigureOptions): LifeCurveFrame {
  const named = drawn.some(({ group }) => group !== 'all');
  const rows = numbersAtRisk(finding, []).length;
  const riskRows = options.atRisk ? rows : 0;
  const namesLeft = rows > 0 && !options.compact && options.width >= leastForNames;
  const margin = marginFor(drawn, namesLeft, riskRows, options);
  const width = Math.max(60, options.width - margin.left - margin.right);
  const plot = { width, height: Math.max(60, options.height - margin.top - margin.bottom) };
  const factor = finding.settings.axis === 'months' ? 1 : displayUnit('miles', options.unitSystem).factor;
  // The axis ends where the longest curve does: no width is spent on ages nobody reached.
  const end = Math.max(1, ...drawn.map((curve) => curve.end.age)) * factor;
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
    ticks: ageTicks(finding, { end, factor, x, margin }, options),
    labels: named ? labels : [],
    riskRows,
    namesLeft,
  };
}

/** Ages the numbers at risk are told for, in shown units; the axis is marked there and nowhere else. */
function toldAges(finding: Finding, end: number, factor: number, most: number): number[] {
  const series = finding.series.find(({ name }) => name === 'at-risk');
  const told = (series ? ages(series) : []).filter((age) => age !== null).map((age) => age * factor);
  const every = Math.ceil((told.length - 1) / most) || 1;
  return told.filter((age, index) => index % every === 0 && age <= end * 1.0001);
}

function ageTicks(
  finding: Finding,
  { end, factor, x, margin }: Pick<LifeCurveFrame, 'end' | 'factor' | 'x' | 'margin'>,
  { compact = false }: FigureOptions,
): AxisTick[] {
  const most = Math.max(2, Math.min(9, Math.floor(x(end) / (compact ? 46 : 66))));
  const told = compact ? [] : toldAges(finding, end, factor, most);
  const marked = told.length > 1 ? told : ticksWithin(end, most);
  const text = (age: number) => (compact && age >= 1000 ? `${age / 1000}k` : Math.round(age).toLocaleString('en-US'));
  return marked.map((age) => ({ age: age / factor, text: text(age), x: margin.left + x(age) }));
}
