import type { TopLevelSpec } from 'vega-lite';
import type { Finding } from '../../shared/finding.ts';
import { agePlot, agePlotLayers, ageTitle, at, stepLayers, type StepPoint } from './age-plot.ts';
import { figureFrame, type DrawFigure } from './figure.ts';
import { ages } from './life-curve-data.ts';

/** Mean failures a wheel end has had by what was watched of it, as far as ten wheel ends were watched. */
export function meanFailuresOf(finding: Finding): StepPoint[] {
  const series = finding.series.find(({ name }) => name === 'mean-failures');
  if (series === undefined) return [];
  const column = (name: string) => series.columns[name] ?? [];
  return ages(series).flatMap((age, index): StepPoint[] => {
    const value = column('mean')[index];
    if (age === null || value == null || (column('atRisk')[index] ?? 0) < 10) return [];
    return [{ age, value, lower: column('lower')[index] ?? null, upper: column('upper')[index] ?? null }];
  });
}

export const meanFailuresSays =
  'Failures a wheel end has had on average, one after another, against what was watched of it since watching began, with limits that allow for vehicles; drawn as far as ten wheel ends were watched. The dotted line is the horizon.';

export const drawMeanFailures: DrawFigure = (finding, options) => {
  const points = [{ age: 0, value: 0, lower: 0, upper: 0 }, ...meanFailuresOf(finding)];
  const margin = { left: 48, right: 20, top: 28, bottom: 46 };
  const [width, height] = [Math.max(60, options.width - 68), options.height - margin.top - margin.bottom];
  const last = points.at(-1) ?? { age: 1, value: 1 };
  const most = Math.max(...points.map(({ upper, value }) => Math.min(upper ?? value, value * 1.6)));
  const plot = agePlot(finding, { left: 0, top: 0, width, height, age: Math.max(last.age, 1), most }, options);
  const words = [
    { x: -40, y: -14, text: 'failures a wheel end, on average', align: 'left' },
    { x: width / 2, y: height + 34, text: ageTitle(finding, options, 'watched'), align: 'center' },
  ];
  const layer = [
    ...agePlotLayers(finding, plot, (tick) => String(tick), options),
    ...stepLayers(points, plot, options.theme.series[0] as string, { dash: [1, 0], interpolate: 'step-after' }),
    ...words.map(({ align, ...word }) => ({
      data: { values: [word] },
      mark: { type: 'text', align, baseline: 'middle', fontSize: 12.5, color: options.theme.ink2 },
      encoding: { ...at, text: { field: 'text' } },
    })),
  ];
  const spec = { ...figureFrame(margin, options.theme, meanFailuresSays), width, height, layer };
  return {
    ...{ spec: spec as unknown as TopLevelSpec, width: options.width, height: options.height },
    ...{ labels: [], ticks: [], namesLeft: false, leftOut: [] },
  };
};
