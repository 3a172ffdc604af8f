import type { TopLevelSpec } from 'vega-lite';
import type { Finding } from '../../shared/finding.ts';
import { percentSign } from '../../shared/percent-sign.ts';
import { figureFrame, type DrawFigure } from './figure.ts';
import { niceAxis, ticksWithin } from './nice-axis.ts';

const pixels = (field: string) => ({ field, type: 'quantitative', scale: null, axis: null });
const at = { x: pixels('x'), y: pixels('y') };
const columnsOf = ({ series }: Finding, name: string) => series.find((one) => one.name === name)?.columns ?? {};

const sumOf = (values: readonly (number | null)[]): number => values.reduce<number>((sum, own) => sum + (own ?? 0), 0);

/** What the running sum shows, and whether either watch has signalled. */
export function runningSumSays(finding: Finding): string {
  const { observed = [], expected = [] } = columnsOf(finding, 'running sum');
  const limits = columnsOf(finding, 'running sum limits');
  const watch = (ratio: number | null | undefined, signal: number | null | undefined): string =>
    `the watch for ${Number((ratio ?? 1).toPrecision(2))} times as many ${signal == null ? 'has not signalled' : `signalled in month ${signal + 1}`}`;
  const share = (100 * (limits['falseSignalShare']?.[0] ?? 0.05)).toFixed(1);
  return `Failures seen of what was fitted after the change, less those expected had it been fitted as before, added up month by month: ${sumOf(observed).toLocaleString('en-US')} seen, ${sumOf(expected).toFixed(1)} expected. Of its two watches ${watch(limits['ratioFewer']?.[0], limits['signalFewer']?.[0])}, and ${watch(limits['ratioMore']?.[0], limits['signalMore']?.[0])}; without a change, one of them signals in ${share}${percentSign} of periods so long.`;
}

/** Observed less expected by month since the change: falling where fewer fail than before. */
export const drawRunningSum: DrawFigure = (finding, options) => {
  const sums = (columnsOf(finding, 'running sum')['observedMinusExpected'] ?? []).map((value) => value ?? 0);
  const margin = { left: 52, right: 20, top: 14, bottom: 46 };
  const [width, height] = [
    Math.max(60, options.width - margin.left - margin.right),
    options.height - margin.top - margin.bottom,
  ];
  const months = Math.max(1, sums.length);
  const [least, most] = [Math.min(0, ...sums), Math.max(0, ...sums)];
  const span = Math.max(1, most - least) * 1.1;
  const top = most + span * 0.04;
  const y = (value: number) => (height * (top - value)) / span;
  const x = (month: number) => (width * month) / months;
  const text = { type: 'text', fontSize: 12, color: options.theme.ink2 };
  const across = ticksWithin(months, Math.max(3, Math.floor(width / 90)));
  const step = niceAxis(Math.max(1, Math.abs(least), most), 4).ticks[1] ?? 1;
  const up = Array.from({ length: 17 }, (_, index) => (index - 8) * step).filter(
    (tick) => tick >= least - step / 2 && tick <= most + step / 2 && y(tick) <= height && y(tick) >= 0,
  );
  const words = [
    ...across.map((tick) => ({ x: x(tick), y: height + 14, text: tick.toLocaleString('en-US') })),
    { x: width / 2, y: height + 34, text: 'months since the change' },
  ];
  const layer = [
    {
      data: { values: up.map((tick) => ({ x: 0, x2: width, y: y(tick) })) },
      mark: { type: 'rule', color: options.theme.hair, strokeWidth: 0.8 },
      encoding: { ...at, x2: { field: 'x2' } },
    },
    {
      data: { values: [{ x: 0, x2: width, y: y(0) }] },
      mark: { type: 'rule', color: options.theme.ink2, strokeWidth: 1.2 },
      encoding: { ...at, x2: { field: 'x2' } },
    },
    {
      data: {
        values: up.map((tick) => ({ x: -8, y: y(tick), text: tick < 0 ? `−${Math.abs(tick)}` : String(tick) })),
      },
      mark: { ...text, align: 'right', baseline: 'middle' },
      encoding: { ...at, text: { field: 'text' } },
    },
    { data: { values: words }, mark: text, encoding: { ...at, text: { field: 'text' } } },
    {
      data: { values: [{ x: 0, y: y(0) }, ...sums.map((sum, month) => ({ x: x(month + 1), y: y(sum) }))] },
      mark: { type: 'line', color: options.theme.series[0], strokeWidth: 2 },
      encoding: { ...at, order: pixels('x') },
    },
  ];
  const spec = { ...figureFrame(margin, options.theme, runningSumSays(finding)), width, height, layer };
  return {
    ...{ spec: spec as unknown as TopLevelSpec, width: options.width, height: options.height },
    ...{ labels: [], ticks: [], namesLeft: false, leftOut: [] },
  };
};
