import { isNarrow, type FigureOptions } from './figure.ts';
import { seriesDashes } from './themes.ts';

const pixels = (field: string) => ({ field, type: 'quantitative', scale: null, axis: null });
const at = { x: pixels('x'), y: pixels('y') };

/** The cost of one group by miles of planned renewal, in shown units. */
export interface CostCurve {
  readonly group: string;
  readonly says: string;
  readonly points: readonly {
    readonly miles: number;
    readonly cost: number;
    readonly lower: number;
    readonly upper: number;
  }[];
  readonly toFailure: number | null;
  /** Miles of the least cost with their limits, and between which it is flat; null where none is named. */
  readonly renewal: {
    readonly at: number;
    readonly lower: number;
    readonly upper: number | null;
    readonly flat: readonly [number, number];
  } | null;
  readonly procedure: number | null;
}

export interface CostPlot {
  readonly width: number;
  readonly height: number;
  readonly x: (miles: number) => number;
  readonly y: (cost: number) => number;
  readonly end: number;
  readonly xTicks: readonly number[];
  readonly yTicks: readonly number[];
  readonly titles: readonly [string, string];
}

/** Where names begin, right of the plot and of the stroke that stands for their line. */
export const nameIndent = 30;

interface PlacedName {
  readonly says: string;
  readonly y: number;
}

/** Grid and words, bands, lines, the flat stretch, the least with its limits, and the procedure's own miles. */
export function costCurveLayers(
  curves: readonly CostCurve[],
  plot: CostPlot,
  names: readonly PlacedName[],
  options: FigureOptions,
): unknown[] {
  return [
    ...frameLayers(plot, options),
    // Bands of several lines would cover one another.
    ...(curves.length === 1 ? curves.flatMap((curve) => bandLayers(curve, plot, options)) : []),
    ...curves.flatMap((curve, index) => lineLayers(curve, index, plot, options, names.length === 0)),
    ...procedureLayers(curves, plot, options),
    ...names.map(({ y }, index) => ({
      data: { values: [{ x: plot.width + 6, x2: plot.width + 24, y }] },
      mark: {
        ...{ type: 'rule', color: options.theme.series[index], strokeWidth: 1.8, strokeDash: seriesDashes[index] },
      },
      encoding: { ...at, x2: { field: 'x2' } },
    })),
    text(
      names.map(({ says, y }) => ({ x: plot.width + nameIndent, y, text: says })),
      { align: 'left', baseline: 'middle', fontSize: 13, color: options.theme.ink },
    ),
  ];
}

const text = (values: readonly object[], mark: object) => ({
  data: { values },
  mark: { type: 'text', ...mark },
  encoding: { ...at, text: { field: 'text' } },
});

function frameLayers({ width, height, x, y, xTicks, yTicks, titles }: CostPlot, { theme, compact }: FigureOptions) {
  const small = { fontSize: 12, color: theme.ink2 };
  const shown = (tick: number) => (compact && tick >= 1000 ? `${tick / 1000}k` : tick.toLocaleString('en-US'));
  const across = xTicks.map((tick) => ({ x: x(tick), y: height + 14, text: shown(tick) }));
  const up = yTicks.map((tick) => ({ x: -8, y: y(tick), text: shown(tick) }));
  return [
    {
      data: { values: yTicks.map((tick) => ({ x: 0, x2: width, y: y(tick) })) },
      mark: { type: 'rule', color: theme.hair, strokeWidth: 0.8 },
      encoding: { ...at, x2: { field: 'x2' } },
    },
    text(across, small),
    text(up, { ...small, align: 'right', baseline: 'middle' }),
    text([{ x: width / 2, y: height + 34, text: titles[0] }], { ...small, fontSize: 12.5 }),
    ...(compact ? [] : [text([{ x: -52, y: -20, text: titles[1] }], { ...small, fontSize: 12.5, align: 'left' })]),
  ];
}

function bandLayers({ points }: CostCurve, { x, y }: CostPlot, { theme }: FigureOptions) {
  const values = points.map(({ miles, lower, upper }) => ({
    ...{ x: x(miles), y: Math.max(0, y(lower)), y2: Math.max(0, y(upper)) },
  }));
  return [
    {
      data: { values },
      mark: { type: 'area', color: theme.series[0], opacity: 0.16 },
      encoding: { ...at, y2: { field: 'y2' } },
    },
  ];
}

function lineLayers(
  { points, renewal, toFailure }: CostCurve,
  index: number,
  { x, y, width }: CostPlot,
  options: FigureOptions,
  alone: boolean,
) {
  const { theme, compact } = options;
  const color = theme.series[index];
  const placed = points
    .map(({ miles, cost }) => ({ x: x(miles), y: y(cost), miles }))
    .filter(({ y: height }) => height >= 0);
  const line = (values: readonly object[], mark: object) => ({
    data: { values },
    mark: { type: 'line', color, ...mark },
    encoding: { ...at, order: pixels('x') },
  });
  const [from, to] = renewal?.flat ?? [0, 0];
  const flat = placed.filter(({ miles }) => miles >= from && miles <= to);
  const least =
    renewal &&
    points.reduce((best, point) =>
      Math.abs(point.miles - renewal.at) < Math.abs(best.miles - renewal.at) ? point : best,
    );
  const upper = renewal ? Math.min(width, renewal.upper === null ? width : x(renewal.upper)) : 0;
  return [
    line(placed, { strokeWidth: 1.8, strokeDash: seriesDashes[index] }),
    ...(toFailure === null
      ? []
      : [
          {
            data: { values: [{ x: 0, x2: width, y: y(toFailure) }] },
            mark: { type: 'rule', color, strokeWidth: 1, strokeDash: [3, 4] },
            encoding: { ...at, x2: { field: 'x2' } },
          },
          ...(alone && !compact
            ? [
                isNarrow(options)
                  ? text([{ x: width, y: y(toFailure) - 9, text: 'run to failure' }], {
                      ...{ align: 'right', baseline: 'bottom', fontSize: 12, color: theme.ink },
                    })
                  : text([{ x: width + 8, y: y(toFailure), text: 'run to failure' }], {
                      ...{ align: 'left', baseline: 'middle', fontSize: 12.5, color: theme.ink },
                    }),
              ]
            : []),
        ]),
    ...(renewal && least
      ? [
          line(flat, { strokeWidth: 4.5 }),
          {
            data: { values: [{ x: Math.max(0, x(renewal.lower)), x2: upper, y: y(least.cost) }] },
            mark: { type: 'rule', color: theme.ink, strokeWidth: 1.4 },
            encoding: { ...at, x2: { field: 'x2' } },
          },
          {
            data: { values: [{ x: x(renewal.at), y: y(least.cost) }] },
            mark: { type: 'point', filled: true, opacity: 1, size: 74, color: theme.ink },
            encoding: at,
          },
        ]
      : []),
  ];
}

/** Only where the axis goes so far: beyond what was watched there is nothing to set it against. */
function procedureLayers(
  curves: readonly CostCurve[],
  { x, end, height }: CostPlot,
  { theme, compact }: FigureOptions,
) {
  const miles = [...new Set(curves.map(({ procedure }) => procedure))].filter((one) => one !== null && one <= end);
  if (miles.length === 0) return [];
  return [
    {
      data: { values: miles.map((one) => ({ x: x(one as number), y: 0, y2: height })) },
      mark: { type: 'rule', color: theme.accent, strokeWidth: 1.2, strokeDash: [6, 3] },
      encoding: { ...at, y2: { field: 'y2' } },
    },
    ...(compact
      ? []
      : [
          text(
            miles.map((one) => ({ x: x(one as number) - 5, y: 8, text: 'procedure' })),
            { align: 'right', fontSize: 12, color: theme.accent },
          ),
        ]),
  ];
}
