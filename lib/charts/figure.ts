import type { TopLevelSpec } from 'vega-lite';
import type { Finding } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { FigureTheme } from './themes.ts';

export interface FigureOptions {
  /** Outer size in pixels, margins included. */
  readonly width: number;
  /** Wanted height; a figure with a row per group takes what its rows need instead. */
  readonly height: number;
  readonly theme: FigureTheme;
  readonly unitSystem: UnitSystem;
  /** For the front page: fewer ticks, no values beside the marks. */
  readonly compact?: boolean;
  /** Writes the numbers at risk under the axis inside the figure, for files that leave the page. */
  readonly atRisk?: boolean;
}

/** No room beside the plot: what stands there goes into it. */
export const isNarrow = ({ compact, width }: Pick<FigureOptions, 'compact' | 'width'>): boolean =>
  compact === true || width < 560;

/** Where a group's name stands in the figure, so that a button can lie over it. */
export interface FigureLabel {
  readonly group: string;
  readonly says: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface AxisTick {
  /** In what the finding's axis counts. */
  readonly age: number;
  readonly text: string;
  /** Pixels from the figure's left edge. */
  readonly x: number;
}

/** A figure with what lies over and under it on the page, all from one geometry. */
export interface Figure {
  readonly spec: TopLevelSpec;
  readonly width: number;
  readonly height: number;
  readonly labels: readonly FigureLabel[];
  readonly ticks: readonly AxisTick[];
  /** The left margin has room for the names of the rows at risk. */
  readonly namesLeft: boolean;
  /** Names of groups that the table has and the figure leaves out, and why it does: for want of room where it does not say. */
  readonly leftOut: readonly string[];
  readonly leftOutWhy?: string;
}

export interface Margin {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export type DrawFigure = (finding: Finding, options: FigureOptions) => Figure;

/** What all figures share: fixed margins, so that text outside the drawing can be aligned with it. */
export function figureFrame(margin: Margin, theme: FigureTheme, description: string) {
  const text = { font: theme.sans, fontSize: 12.5, color: theme.ink };
  const axis = {
    labelFont: theme.sans,
    labelFontSize: 12,
    labelColor: theme.ink2,
    titleFont: theme.sans,
    titleFontSize: 12.5,
    titleFontWeight: 'normal',
    titleColor: theme.ink2,
    domain: false,
    ticks: false,
    gridColor: theme.hair,
    gridWidth: 0.8,
  } as const;
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    description,
    padding: margin,
    autosize: { type: 'none' },
    background: 'transparent',
    // Marks are described once, by the figure's own sentence; a screen reader would else read every point.
    config: { font: theme.sans, aria: false, view: { stroke: null }, text, axis, concat: { spacing: 0 } },
  } as const;
}
