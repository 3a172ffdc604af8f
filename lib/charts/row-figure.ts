import type { TopLevelSpec } from 'vega-lite';
import type { Finding } from '../../shared/finding.ts';
import { canNarrow } from './can-narrow.ts';
import { figureFrame, type Figure, type FigureLabel, type FigureOptions } from './figure.ts';
import { figureDescription } from './figure-description.ts';
import { columnSays } from './plain-words.ts';
import { figureRows, mostRows, panelData, type Panel } from './row-figure-data.ts';
import { compactRows, frameRows, nameSize, rowLabels, type RowFrame } from './row-figure-frame.ts';
import { axisLayers, bandLayers, markLayers, wordLayers } from './row-figure-layers.ts';

/** Names of the rows in the left margin, and above them what they are cut by. */
function nameLayers(
  finding: Finding,
  labels: readonly FigureLabel[],
  frame: RowFrame,
  options: FigureOptions,
): unknown[] {
  const { left, top } = frame.margin;
  const names = labels.map(({ says, y, height }) => ({ text: says, y: y - top + height / 2 }));
  // Rows may be deviations, rules or stretches, whatever the view is cut by.
  const cuts = Object.keys(finding.groups[0]?.by ?? {});
  const heading = cuts.join() === finding.settings.by.join() ? cuts.map(columnSays).join(' · ') : '';
  const text = (values: readonly object[], mark: object) => ({
    data: { values },
    mark: { type: 'text', align: 'left', baseline: 'middle', ...mark },
    encoding: {
      ...{
        x: { value: frame.over !== null ? 0 : -left },
        y: { field: 'y', type: 'quantitative', scale: null, axis: null },
      },
      text: { field: 'text' },
    },
  });
  const over = text([{ text: heading, y: -16 }], { fontSize: 12.5, color: options.theme.ink2 });
  return [text(names, { fontSize: nameSize }), ...(options.compact || heading === '' ? [] : [over])];
}

/** A row a group, a dot with its interval on one axis a panel; names left, values in words right. */
export function drawRows(finding: Finding, panels: readonly Panel[], options: FigureOptions): Figure {
  const most = options.compact ? compactRows(options.height) : mostRows;
  const { drawn, leftOut } = figureRows(finding, most);
  const ticks = Math.max(3, Math.min(7, Math.floor(options.width / panels.length / 60)));
  const data = panels.map((panel) => panelData(panel, drawn, options.unitSystem, ticks));
  const frame = frameRows(drawn, data, options);
  const { margin } = frame;
  const labels = rowLabels(drawn, frame, options.width);
  const layer = data.flatMap((panel, index) => {
    const place = frame.places[index];
    if (place === undefined) return [];
    return [
      ...axisLayers(panel, place, options),
      ...bandLayers(panel, place, options),
      ...markLayers(panel, place, options),
      ...wordLayers(panel, place, frame, options),
    ];
  });
  const plot = { width: options.width - margin.left - margin.right, height: frame.places[0]?.height ?? 0 };
  const spec = {
    ...figureFrame(margin, options.theme, figureDescription(finding)),
    ...{ ...plot, layer: [...layer, ...nameLayers(finding, labels, frame, options)] },
  };
  const named =
    (finding.settings.by.length > 0 || finding.question === 'causes') && drawn.every(({ by }) => canNarrow(by));
  return {
    ...{
      spec: spec as unknown as TopLevelSpec,
      width: options.width,
      height: margin.top + plot.height + margin.bottom,
    },
    ...{ labels: named ? labels : [], ticks: [], namesLeft: false, leftOut },
  };
}
