import type { Group } from '../../shared/finding.ts';
import type { FigureLabel, FigureOptions, Margin } from './figure.ts';
import { groupSays } from './plain-words.ts';
import type { PanelData } from './row-figure-data.ts';
import type { NamesOver, PanelPlace } from './row-figure-layers.ts';
import { fitText, textWidth } from './text-width.ts';

export const nameSize = 13;
const wordSize = 12.5;
const panelGap = 34;
/** Room under the rows for the axis and its title. */
const axisRoom = 46;
const compactEnds = { top: 0, bottom: 42 };
/** Names are pressed too: a target is 24 pixels high (WCAG 2.2, 2.5.8). */
const leastCompactRow = 24;

/** How many rows a small figure of this height has room for. */
export const compactRows = (height: number): number =>
  Math.max(1, Math.floor((height - compactEnds.top - compactEnds.bottom) / leastCompactRow));

export interface RowFrame {
  readonly margin: Margin;
  readonly rowHeight: number;
  readonly places: readonly PanelPlace[];
  /** Values are written out right of each axis. */
  readonly words: boolean;
  /** Names stand over their rows, at full width; values at the end of the same line, or beneath it where they would meet. */
  readonly over: NamesOver;
}

const widest = (texts: readonly string[], size: number): number =>
  Math.max(0, ...texts.map((text) => textWidth(text, size)));

export function frameRows(groups: readonly Group[], panels: readonly PanelData[], options: FigureOptions): RowFrame {
  const names = widest(
    groups.map(({ by }) => groupSays(by)),
    nameSize,
  );
  const told = panels.flatMap(({ rows }) => rows.map(({ text }) => text));
  const long = panels.length === 1 && panels[0]?.panel.longNames === true && !options.compact;
  const words = !options.compact && options.width >= 300 + 280 * panels.length;
  const wordWidth = words ? widest(told, wordSize) + 14 : 0;
  const alone = panels.length === 1 ? (options.width < 480 ? 0.43 : 0.4) : 0.36;
  const share = long ? 0.5 : options.compact ? 0.43 : alone;
  const over = long && (!words || names + 14 > options.width * share);
  if (over) return frameOver(groups, told, options);
  const left = Math.min(options.width * share, names + 14);
  const margin = { left, right: words ? 2 : 16, ...(options.compact ? compactEnds : { top: 32, bottom: axisRoom }) };
  const room = (options.width - left - margin.right - panelGap * (panels.length - 1)) / panels.length;
  const width = Math.max(50, room - wordWidth);
  const fitting = (options.height - margin.top - margin.bottom) / Math.max(1, groups.length);
  const rowHeight = options.compact ? Math.max(leastCompactRow, Math.min(28, fitting)) : 28;
  const height = Math.max(1, groups.length) * rowHeight;
  const places = panels.map((_, index) => ({
    left: index * (room + panelGap),
    width,
    rowHeight,
    height,
    edge: options.width - left,
  }));
  return { margin, rowHeight, places, words, over: null };
}

function frameOver(groups: readonly Group[], told: readonly string[], options: FigureOptions): RowFrame {
  const margin = { left: 8, right: 8, top: 12, bottom: axisRoom };
  const width = options.width - margin.left - margin.right;
  const fits = groups.every(
    ({ by }, row) => textWidth(groupSays(by), nameSize) + textWidth(told[row] ?? '', wordSize) + 14 <= width,
  );
  const rowHeight = fits ? 46 : 62;
  const height = Math.max(1, groups.length) * rowHeight;
  const place = { left: 0, width, rowHeight, height, edge: width + margin.right, middle: fits ? 0.72 : 0.8 };
  return { margin, rowHeight, places: [place], words: true, over: fits ? 'one line' : 'two lines' };
}

/** Where the name of each row stands. */
export function rowLabels(
  groups: readonly Group[],
  { margin, rowHeight, over }: RowFrame,
  width: number,
): FigureLabel[] {
  const room = over !== null ? width - margin.left - margin.right : margin.left;
  return groups.map(({ label, by }, row) => ({
    ...{ group: label, says: fitText(groupSays(by), nameSize, over !== null ? room : room - 12) },
    ...{ x: over !== null ? margin.left : 0, y: margin.top + row * rowHeight, width: room },
    height: over !== null ? leastCompactRow : rowHeight,
  }));
}
