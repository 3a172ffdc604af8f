import type { TopLevelSpec } from 'vega-lite';
import type { Finding, Group } from '../../shared/finding.ts';
import { figureFrame, type Figure, type FigureLabel, type FigureOptions, type Margin } from './figure.ts';
import { figureDescription } from './figure-description.ts';
import { columnSays, groupSays } from './plain-words.ts';
import { figureRows, mostRows, panelData, type Panel, type PanelData } from './row-figure-data.ts';
import { axisLayers, markLayers, wordLayers, type PanelPlace } from './row-figure-layers.ts';
import { fitText, textWidth } from './text-width.ts';

const nameSize = 13;
const panelGap = 34;
/** Names are pressed too: a target is 24 pixels high (WCAG 2.2, 2.5.8). */
const leastCompactRow = 24;

interface RowFrame {
  readonly margin: Margin;
  readonly rowHeight: number;
  readonly places: readonly PanelPlace[];
  /** Values are written out right of each axis. */
  readonly words: boolean;
}

function frameRows(groups: readonly Group[], panels: readonly PanelData[], options: FigureOptions): RowFrame {
  const names = groups.map(({ by }) => textWidth(groupSays(by), nameSize));
  const share = options.compact || (panels.length === 1 && options.width < 480) ? 0.43 : 0.36;
  const left = Math.min(options.width * share, Math.max(0, ...names) + 14);
  const words = !options.compact && options.width >= 300 + 280 * panels.length;
  const wordWidth = words
    ? Math.max(...panels.flatMap(({ rows }) => rows.map(({ text }) => textWidth(text, 12.5)))) + 14
    : 0;
  const margin = { left, right: words ? 2 : 16, top: options.compact ? 8 : 32, bottom: 46 };
  const room = (options.width - left - margin.right - panelGap * (panels.length - 1)) / panels.length;
  const width = Math.max(50, room - wordWidth);
  const fitting = (options.height - margin.top - margin.bottom) / Math.max(1, groups.length);
  const rowHeight = options.compact ? Math.max(leastCompactRow, Math.min(28, fitting)) : 28;
  const height = Math.max(1, groups.length) * rowHeight;
  const places = panels.map((_, index) => ({ left: index * (room + panelGap), width, rowHeight, height }));
  return { margin, rowHeight, places, words };
}

/** Names of the rows in the left margin, and above them what they are cut by. */
function nameLayers(
  finding: Finding,
  labels: readonly FigureLabel[],
  frame: RowFrame,
  options: FigureOptions,
): unknown[] {
  const { left, top } = frame.margin;
  const names = labels.map(({ says, y, height }) => ({ text: says, y: y - top + height / 2 }));
  // Rows of a ranking are deviations, whatever the view is cut by.
  const heading = finding.question === 'causes' ? '' : finding.settings.by.map(columnSays).join(' · ');
  const text = (values: readonly object[], mark: object) => ({
    data: { values },
    mark: { type: 'text', align: 'left', baseline: 'middle', ...mark },
    encoding: {
      ...{ x: { value: -left }, y: { field: 'y', type: 'quantitative', scale: null, axis: null } },
      text: { field: 'text' },
    },
  });
  const over = text([{ text: heading, y: -16 }], { fontSize: 12.5, color: options.theme.ink2 });
  return [text(names, { fontSize: nameSize }), ...(options.compact || heading === '' ? [] : [over])];
}

/** A row a group, a dot with its interval on one axis a panel; names left, values in words right. */
export function drawRows(finding: Finding, panels: readonly Panel[], options: FigureOptions): Figure {
  const most = options.compact ? Math.max(1, Math.floor((options.height - 54) / leastCompactRow)) : mostRows;
  const { drawn, leftOut } = figureRows(finding, most);
  const ticks = Math.max(3, Math.min(7, Math.floor(options.width / panels.length / 60)));
  const data = panels.map((panel) => panelData(panel, drawn, options.unitSystem, ticks));
  const { margin, ...frame } = frameRows(drawn, data, options);
  const labels = drawn.map(({ label, by }, row) => ({
    ...{ group: label, says: fitText(groupSays(by), nameSize, margin.left - 12) },
    ...{ x: 0, y: margin.top + row * frame.rowHeight, width: margin.left, height: frame.rowHeight },
  }));
  const layer = data.flatMap((panel, index) => {
    const place = frame.places[index];
    if (place === undefined) return [];
    return [
      ...axisLayers(panel, place, options),
      ...markLayers(panel, place, options),
      ...wordLayers(panel, place, frame.words, options),
    ];
  });
  const plot = { width: options.width - margin.left - margin.right, height: frame.places[0]?.height ?? 0 };
  const spec = {
    ...figureFrame(margin, options.theme, figureDescription(finding)),
    ...{ ...plot, layer: [...layer, ...nameLayers(finding, labels, { margin, ...frame }, options)] },
  };
  const named = finding.settings.by.length > 0 || finding.question === 'causes';
  return {
    ...{
      spec: spec as unknown as TopLevelSpec,
      width: options.width,
      height: margin.top + plot.height + margin.bottom,
    },
    ...{ labels: named ? labels : [], ticks: [], namesLeft: false, leftOut },
  };
}
