import type { TopLevelSpec } from 'vega-lite';
import type { Finding } from '../../shared/finding.ts';
import { displayUnit } from '../../shared/units.ts';
import { figureDescription } from './figure-description.ts';
import { figureFrame, isNarrow, type DrawFigure, type FigureLabel } from './figure.ts';
import { costCurveLayers, nameIndent, type CostCurve, type CostPlot } from './cost-curve-layers.ts';
import { niceAxis, ticksWithin } from './nice-axis.ts';
import { groupNamed, groupSays } from './plain-words.ts';
import { spreadLabels } from './spread-labels.ts';
import { fitText, textWidth } from './text-width.ts';
import { mostSeries } from './themes.ts';

type Columns = Readonly<Record<string, readonly (number | null)[]>>;

function curvesOf({ series, groups }: Finding, distance: number, rate: number): CostCurve[] {
  const find = (name: string, group: string): Columns | undefined =>
    series.find((one) => one.name === name && one.group === group)?.columns;
  return groups.flatMap(({ label, by }): CostCurve[] => {
    const cost = find('cost', label);
    if (!cost) return [];
    const at = (name: string, place: number) => cost[name]?.[place] ?? null;
    const points = (cost['miles'] ?? []).flatMap((miles, place) => {
      const [value, lower, upper] = [at('cost', place), at('lower', place), at('upper', place)];
      return miles === null || value === null
        ? []
        : [
            {
              miles: miles * distance,
              cost: value * rate,
              lower: (lower ?? value) * rate,
              upper: (upper ?? value) * rate,
            },
          ];
    });
    const renewal = find('renewal', label);
    const [best, low, high] = renewal?.['miles'] ?? [];
    const [flatFrom, flatTo] = renewal?.['flat'] ?? [];
    const toFailure = find('run to failure', label)?.['cost']?.[0];
    const procedure = find('procedure', label)?.['miles']?.[0];
    return [
      {
        ...{ group: label, says: groupSays(by), points },
        toFailure: toFailure == null ? null : toFailure * rate,
        renewal:
          best == null
            ? null
            : {
                ...{ at: best * distance, lower: (low ?? 0) * distance, upper: high == null ? null : high * distance },
                flat: [(flatFrom ?? best) * distance, (flatTo ?? best) * distance],
              },
        procedure: procedure == null ? null : procedure * distance,
      },
    ];
  });
}

/** Renewing very early costs many times the least: what lies past this many times it is cut off. */
const mostTimesLeast = 2.4;

/** The cost by miles of planned renewal, a line a group, with running to failure beside. */
export const drawCostCurves: DrawFigure = (finding, options) => {
  const distance = displayUnit('miles', options.unitSystem);
  const rate = displayUnit('perMillionMiles', options.unitSystem);
  const all = curvesOf(finding, distance.factor, rate.factor);
  const drawn = all.slice(0, mostSeries);
  const named = finding.settings.by.length > 0;
  const widest = Math.max(0, ...drawn.map(({ says }) => textWidth(says, 13)));
  const right = named ? Math.min(options.width * 0.34, widest + nameIndent + 8) : isNarrow(options) ? 14 : 118;
  const margin = {
    left: options.compact ? 52 : 64,
    right: Math.min(right, options.width * 0.34),
    top: options.compact ? 12 : 34,
    bottom: 46,
  };
  const width = Math.max(60, options.width - margin.left - margin.right);
  const height = Math.max(60, options.height - margin.top - margin.bottom);
  const end = Math.max(1, ...drawn.flatMap(({ points }) => points.map(({ miles }) => miles)));
  const levels = drawn.flatMap(({ points, toFailure }) => [
    Math.min(...points.map(({ cost }) => cost)) * mostTimesLeast,
    (toFailure ?? 0) * 1.15,
  ]);
  const costs = niceAxis(Math.max(0, ...levels) || 1, 5);
  const plot: CostPlot = {
    ...{ width, height, end, yTicks: costs.ticks },
    x: (miles) => (width * miles) / end,
    y: (cost) => height * (1 - cost / costs.end),
    xTicks: ticksWithin(end, Math.max(2, Math.floor(width / 80))),
    titles: [
      `planned renewal at, ${distance.symbol} since installation`,
      isNarrow(options)
        ? `cost ${rate.symbol}, as entered`
        : `cost ${rate.symbol} of a wheel end, in the unit of the costs entered`,
    ],
  };
  const places = spreadLabels(
    drawn.map(({ points }) => plot.y(Math.min(costs.end, points.at(-1)?.cost ?? 0))),
    ...([20, 8, height - 8] as const),
  );
  const labels: FigureLabel[] = drawn.map(({ group, says }, index) => ({
    ...{ group, says: fitText(says, 13, margin.right - nameIndent - 4) },
    ...{ x: options.width - margin.right + 6, y: margin.top + (places[index] ?? 0) - 12 },
    ...{ width: margin.right - 6, height: 24 },
  }));
  const layer = costCurveLayers(
    drawn,
    plot,
    named ? labels.map(({ says }, at) => ({ says, y: places[at] ?? 0 })) : [],
    options,
  );
  const spec = { ...figureFrame(margin, options.theme, figureDescription(finding)), width, height, layer };
  return {
    ...{ spec: spec as unknown as TopLevelSpec, width: options.width, height: options.height },
    ...{ labels: named ? labels : [], ticks: [], namesLeft: false },
    leftOut: finding.groups
      .filter(({ label }) => !drawn.some(({ group }) => group === label))
      .map(({ by }) => groupNamed(by)),
    leftOutWhy: 'what renewing them costs cannot be told',
  };
};
