import type { Finding } from '../../shared/finding.ts';
import { componentWords } from './component-words.ts';
import type { FigureOptions } from './figure.ts';
import { numbersAtRisk, thinCurve, type LifeCurve } from './life-curve-data.ts';
import { labelSize, riskRow, swatch, type LifeCurveFrame } from './life-curve-frame.ts';
import { horizonOf } from '../../shared/view.ts';
import { ageSays } from './shown-number.ts';
import { fitText, textWidth } from './text-width.ts';
import { seriesDashes } from './themes.ts';

const pixels = (field: string) => ({ field, type: 'quantitative', scale: null, axis: null });

/** Colour and dash by group, the same wherever a group is drawn. */
function seriesOf(drawn: readonly LifeCurve[], options: FigureOptions) {
  const domain = drawn.map(({ group }) => group);
  const by = (range: readonly unknown[]) => ({
    ...{ field: 'group', type: 'nominal', legend: null },
    scale: { domain, range: range.slice(0, domain.length) },
  });
  return { colour: by(options.theme.series), dash: by(seriesDashes) };
}

/** Bands lie over each other: the more there are, the quieter each must be. */
const bandOpacity = (curves: number): number => (curves <= 3 ? 0.14 : curves <= 5 ? 0.1 : 0.06);

const axisUnit = ({ settings }: Finding, { unitSystem }: FigureOptions): string =>
  settings.axis === 'months' ? 'months' : unitSystem === 'us' ? 'miles' : 'kilometres';

export function curveLayers(
  finding: Finding,
  drawn: readonly LifeCurve[],
  frame: LifeCurveFrame,
  options: FigureOptions,
) {
  const { colour, dash } = seriesOf(drawn, options);
  const perPixel = frame.end / frame.factor / frame.plot.width;
  const curves = drawn.flatMap((curve) =>
    thinCurve(curve, perPixel).map((point) => ({ ...point, age: point.age * frame.factor })),
  );
  const thousands = options.compact ? { labelExpr: "datum.value < 1000 ? datum.label : datum.value / 1000 + 'k'" } : {};
  const x = {
    ...{ field: 'age', type: 'quantitative', scale: { domain: [0, frame.end], nice: false } },
    axis: {
      ...{ title: `${axisUnit(finding, options)} since installation`, titlePadding: 7 },
      ...{ values: frame.ticks.map(({ age }) => age * frame.factor), format: ',.0f', labelPadding: 7 },
      ...{ grid: false, labelOverlap: false, labelFlush: false, ...thousands },
    },
  };
  const share = (field: string) => ({
    ...{ field, type: 'quantitative', scale: { domain: [0, 1], nice: false } },
    axis: {
      ...{ values: [0, 0.25, 0.5, 0.75, 1], labelPadding: 8 },
      labelExpr: "datum.value == 1 ? '100 %' : format(datum.value * 100, '.0f')",
      title: options.compact ? null : componentWords[finding.settings.component].curve,
      ...{ titleAngle: 0, titleAlign: 'left', titleBaseline: 'bottom', titleX: -48, titleY: -16 },
    },
  });
  const layers = [
    {
      data: { name: 'curves' },
      transform: [{ filter: 'isValid(datum.lower) && isValid(datum.upper)' }],
      mark: { type: 'area', interpolate: 'step-after', opacity: bandOpacity(drawn.length), aria: true },
      encoding: { x, y: share('lower'), y2: { field: 'upper' }, fill: colour, description: { field: 'group' } },
    },
    {
      data: { name: 'curves' },
      mark: { type: 'line', interpolate: 'step-after', strokeWidth: options.compact ? 1.8 : 2, aria: true },
      encoding: { x, y: share('survival'), stroke: colour, strokeDash: dash, description: { field: 'group' } },
    },
  ];
  return { datasets: { curves }, layers };
}

/** The horizon the reader chose, where it falls within the figure, and its distance over it, clear of the axis title. */
export function horizonLayers(finding: Finding, frame: LifeCurveFrame, options: FigureOptions) {
  const horizon = horizonOf(finding.settings);
  const at = horizon * frame.factor;
  if (at > frame.end) return [];
  const says = ageSays(horizon, finding.settings.axis, options.unitSystem);
  const x = frame.x(at);
  const width = textWidth(says, 12.5);
  const titleEnd = textWidth(componentWords[finding.settings.component].curve, 12.5) - 48 + 12;
  const text = Math.min(Math.max(x - width / 2, titleEnd), frame.plot.width + frame.margin.right - width);
  const data = { values: [{ x, top: options.compact ? 0 : -6, bottom: frame.plot.height, says, text }] };
  const rule = {
    data,
    mark: { type: 'rule', color: options.theme.accent, strokeDash: [2, 3], strokeWidth: 1.2 },
    encoding: { x: pixels('x'), y: pixels('top'), y2: { field: 'bottom' } },
  };
  const name = {
    data,
    mark: { type: 'text', dy: -6, baseline: 'bottom', align: 'left', color: options.theme.accent },
    encoding: { x: pixels('text'), y: pixels('top'), text: { field: 'says' } },
  };
  return options.compact ? [rule] : [rule, name];
}

/** Names in the right margin, each tied to its curve's end by a line of its own colour and dash. */
export function nameLayers(drawn: readonly LifeCurve[], frame: LifeCurveFrame, options: FigureOptions) {
  if (frame.labels.length === 0) return [];
  const { colour, dash } = seriesOf(drawn, options);
  const values = drawn.flatMap((curve, index) => {
    const label = frame.labels[index];
    if (label === undefined) return [];
    const y = label.y + label.height / 2 - frame.margin.top;
    const start = { x: frame.x(curve.end.age * frame.factor), y: frame.plot.height * (1 - curve.end.survival) };
    const edge = frame.plot.width + 6;
    return [
      {
        group: curve.group,
        says: label.says,
        x1: start.x,
        y1: start.y,
        edge,
        y,
        end: edge + swatch - 4,
        text: edge + swatch,
      },
    ];
  });
  const data = { values };
  const line = (x: string, y: string, x2: string, y2: string) => ({
    x: pixels(x),
    y: pixels(y),
    x2: { field: x2 },
    y2: { field: y2 },
  });
  return [
    {
      data,
      mark: { type: 'rule', strokeWidth: 0.8, opacity: 0.6 },
      encoding: { ...line('x1', 'y1', 'edge', 'y'), stroke: colour },
    },
    {
      data,
      mark: { type: 'rule', strokeWidth: 2 },
      encoding: { ...line('edge', 'y', 'end', 'y'), stroke: colour, strokeDash: dash },
    },
    {
      data,
      mark: {
        type: 'text',
        align: 'left',
        baseline: 'middle',
        fontSize: labelSize,
        fontWeight: 600,
        color: options.theme.ink,
      },
      encoding: { x: pixels('text'), y: pixels('y'), text: { field: 'says' } },
    },
  ];
}

/** Numbers at risk under the ticks, for a figure that leaves the page without its table. */
export function riskLayers(finding: Finding, frame: LifeCurveFrame, options: FigureOptions) {
  if (frame.riskRows === 0) return [];
  const rows = numbersAtRisk(
    finding,
    frame.ticks.map(({ age }) => age),
  );
  const top = frame.plot.height + 62;
  const room = frame.margin.left - 14;
  const values = rows.flatMap(({ says, counts }, row) => [
    { x: -frame.margin.left, y: top + row * riskRow, text: fitText(says, 12, room), align: 'left' },
    ...counts.flatMap((count, index) => {
      const tick = frame.ticks[index];
      if (count === null || tick === undefined) return [];
      return [
        { x: tick.x - frame.margin.left, y: top + row * riskRow, text: count.toLocaleString('en-US'), align: 'center' },
      ];
    }),
  ]);
  values.push({ x: -frame.margin.left, y: top - riskRow, text: 'at risk', align: 'left' });
  return ['left', 'center'].map((align) => ({
    data: { values: values.filter((value) => value.align === align) },
    mark: { type: 'text', align, baseline: 'middle', fontSize: 12, color: options.theme.ink2 },
    encoding: { x: pixels('x'), y: pixels('y'), text: { field: 'text' } },
  }));
}
