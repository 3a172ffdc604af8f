import type { TopLevelSpec } from 'vega-lite';
import type { Finding, Group, Series } from '../../shared/finding.ts';
import { horizonOf } from '../../shared/view.ts';
import { agePlot, agePlotLayers, ageTitle, at, stepLayers, type AgePlot, type StepPoint } from './age-plot.ts';
import { figureFrame, type DrawFigure, type FigureOptions } from './figure.ts';
import { ages } from './life-curve-data.ts';
import { groupNamed, groupSays } from './plain-words.ts';
import { spreadLabels } from './spread-labels.ts';

const mostGroups = 6;
const panelHeight = 200;
const lineNames = 62;

export const foundAndBegunSays =
  'Share leaking by age up to the horizon: whole line, found; dashed, when the leak can have begun (a Weibull of the intervals between the last dry check and finding), both with limits; dotted, the beginning with no shape assumed, slanting where the records leave it open.';

/** Share that no longer survives, with its limits turned over. */
function leaking(series: Series | undefined, horizon: number): StepPoint[] {
  if (series === undefined) return [];
  const column = (name: string) => series.columns[name] ?? [];
  const over = (value: number | null | undefined) => (value == null ? null : 1 - value);
  return ages(series).flatMap((age, index): StepPoint[] => {
    const survival = column('survival')[index];
    if (age === null || age > horizon || survival == null) return [];
    return [{ age, value: 1 - survival, lower: over(column('upper')[index]), upper: over(column('lower')[index]) }];
  });
}

/** Corners of the line with no shape assumed: within an interval it may run anywhere between two of them. */
function corners(series: Series | undefined, horizon: number): { age: number; value: number }[] {
  if (series === undefined) return [];
  const column = (name: string) => series.columns[name] ?? [];
  return column('from').flatMap((from, index) => {
    const to = column('to')[index] ?? null;
    const [before, after] = [column('survivalBefore')[index], column('survivalAfter')[index]];
    if (from === null || to === null || to > horizon || before == null || after == null) return [];
    return [
      { age: from, value: 1 - before },
      { age: to, value: 1 - after },
    ];
  });
}

interface Both {
  readonly group: Group;
  readonly found: readonly StepPoint[];
  readonly begun: readonly StepPoint[];
  readonly open: readonly { readonly age: number; readonly value: number }[];
}

function bothOf(finding: Finding): Both[] {
  const horizon = horizonOf(finding.settings);
  return finding.groups.flatMap((group) => {
    const named = (name: string) => finding.series.find((one) => one.name === name && one.group === group.label);
    const found = leaking(named('found'), horizon);
    const begun = leaking(named('begun-fitted'), horizon);
    return found.length < 2 ? [] : [{ group, found, begun, open: corners(named('begun'), horizon) }];
  });
}

/** A small plot a group, all on one scale: the curve of finding and the curve of beginning. */
export const drawFoundAndBegun: DrawFigure = (finding, options) => {
  const all = bothOf(finding);
  const drawn = [...all].sort((a, b) => b.group.lives - a.group.lives).slice(0, mostGroups);
  const kept = all.filter((both) => drawn.includes(both));
  const across = options.width >= 620 ? 2 : 1;
  const rows = Math.max(1, Math.ceil(kept.length / across));
  const margin = { left: 44, right: 4, top: 4, bottom: 4 };
  const room = options.width - margin.left - margin.right;
  const cell = { width: room / across, height: panelHeight + 74 };
  const most = Math.max(0.01, ...kept.flatMap(({ found, begun }) => [...found, ...begun].map(({ value }) => value)));
  const layer = kept.flatMap((both, index) => {
    const left = (index % across) * cell.width;
    const span = {
      ...{ left, top: Math.floor(index / across) * cell.height + 28, height: panelHeight },
      width: Math.max(60, cell.width - lineNames - (across > 1 ? 44 : 0)),
      ...{ age: horizonOf(finding.settings), most: Math.min(1, most * 1.15) },
    };
    return panelLayers(finding, both, agePlot(finding, span, options), options);
  });
  const plot = { width: room, height: rows * cell.height };
  const spec = { ...figureFrame(margin, options.theme, foundAndBegunSays), ...plot, layer };
  return {
    ...{ spec: spec as unknown as TopLevelSpec, width: options.width, height: plot.height + 8 },
    ...{ labels: [], ticks: [], namesLeft: false },
    leftOut: finding.groups.filter((own) => !kept.some(({ group }) => group === own)).map(({ by }) => groupNamed(by)),
  };
};

function panelLayers(finding: Finding, { group, found, begun, open }: Both, plot: AgePlot, options: FigureOptions) {
  const { theme } = options;
  const [one, two] = theme.series as [string, string];
  const ends = [
    { text: 'begun', end: begun.at(-1), color: two },
    { text: 'found', end: found.at(-1), color: one },
  ].flatMap(({ end, ...rest }) => (end === undefined ? [] : [{ ...rest, y: plot.y(end.value) }]));
  const heights = spreadLabels(
    ends.map(({ y }) => y),
    ...([16, plot.top, plot.top + plot.height] as const),
  );
  const words = [
    { x: plot.left, y: plot.top - 16, text: groupSays(group.by), align: 'left', color: theme.ink, weight: 600 },
    {
      ...{
        x: plot.left + plot.width / 2,
        y: plot.top + plot.height + 33,
        text: ageTitle(finding, options, 'since installation'),
      },
      ...{ align: 'center', color: theme.ink2, weight: 400 },
    },
    ...ends.map(({ text, color }, index) => ({
      ...{ x: plot.left + plot.width + 8, y: heights[index], text, align: 'left', color, weight: 600 },
    })),
  ];
  return [
    ...agePlotLayers(finding, plot, (value) => (value === 0 ? '0' : `${Math.round(value * 100)}\u00a0%`), options),
    ...stepLayers([{ age: 0, value: 0, lower: 0, upper: 0 }, ...begun], plot, two, {
      dash: [7, 4],
      interpolate: 'linear',
    }),
    ...stepLayers(found, plot, one, { dash: [1, 0], interpolate: 'step-after' }),
    ...(open.length < 2
      ? []
      : [
          {
            data: { values: open.map(({ age, value }, order) => ({ x: plot.x(age), y: plot.y(value), order })) },
            mark: { type: 'line', color: two, strokeWidth: 1.2, strokeDash: [1, 3] },
            encoding: { ...at, order: { field: 'order', type: 'quantitative' } },
          },
        ]),
    ...words.map(({ align, color, weight, ...word }) => ({
      data: { values: [word] },
      mark: { type: 'text', align, baseline: 'middle', fontSize: 12.5, fontWeight: weight, color },
      encoding: { ...at, text: { field: 'text' } },
    })),
  ];
}
