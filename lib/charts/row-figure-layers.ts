import type { FigureOptions } from './figure.ts';
import type { PanelData } from './row-figure-data.ts';
import { textWidth } from './text-width.ts';

const pixels = (field: string) => ({ field, type: 'quantitative', scale: null, axis: null });
const at = { x: pixels('x'), y: pixels('y') };

/** Names over their rows, values at the end of the same line or beneath it; null where names stand left. */
export type NamesOver = 'one line' | 'two lines' | null;

/** Where a panel's axis lies, in pixels from the drawing's left edge, and the rows' height. */
export interface PanelPlace {
  readonly left: number;
  readonly width: number;
  readonly rowHeight: number;
  readonly height: number;
  /** The drawing's right edge. */
  readonly edge: number;
  /** Share of a row's height at which its mark stands, where not in the middle. */
  readonly middle?: number;
}

/** Grid, tick labels and title, drawn as marks so that two axes can share one set of rows. */
export function axisLayers(panel: PanelData, place: PanelPlace, options: FigureOptions): unknown[] {
  const { ticks: values, share } = panel.scale;
  const ticks = values.map((value) => ({
    ...{ x: place.left + place.width * share(value), top: 0, y: place.height },
    ...{ value, text: panel.panel.ratio ? String(value) : tickText(value, values) },
  }));
  const one = panel.panel.ratio ? ticks.filter(({ value }) => value === 1) : [];
  const small = { type: 'text', baseline: 'top', fontSize: 12, color: options.theme.ink2 };
  const title = titleAt(panel, place);
  return [
    {
      data: { values: ticks },
      mark: { type: 'rule', color: options.theme.hair, strokeWidth: 0.8 },
      encoding: { x: pixels('x'), y: pixels('top'), y2: { field: 'y' } },
    },
    ...(one.length === 0
      ? []
      : [
          {
            data: { values: one },
            mark: { type: 'rule', color: options.theme.ink2, strokeWidth: 1.2 },
            encoding: { x: pixels('x'), y: pixels('top'), y2: { field: 'y' } },
          },
        ]),
    { data: { values: ticks }, mark: { ...small, dy: 7 }, encoding: { ...at, text: { field: 'text' } } },
    { data: { values: [title] }, mark: { ...small, fontSize: 12.5 }, encoding: { ...at, text: { field: 'text' } } },
  ];
}

/** Under the middle of its axis, but never past the drawing's right edge. */
function titleAt({ title, shortTitle }: PanelData, { left, width, height, edge }: PanelPlace) {
  const text = textWidth(title, 12.5) <= width + 24 ? title : shortTitle;
  const middle = Math.min(left + width / 2, edge - textWidth(text, 12.5) / 2);
  return { x: middle, y: height + 26, text };
}

function tickText(value: number, ticks: readonly number[]): string {
  const step = (ticks[1] ?? 1) - (ticks[0] ?? 0);
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return value.toLocaleString('en-US', {
    minimumFractionDigits: value === 0 ? 0 : digits,
    maximumFractionDigits: digits,
  });
}

/** Interval bars, arrows where they run on, bounds set by the unknown, and dots (hollow at zero). */
export function markLayers(panel: PanelData, place: PanelPlace, options: FigureOptions): unknown[] {
  const colour = options.theme.series[0];
  const x = (value: number | null) => (value === null ? null : place.left + place.width * panel.scale.share(value));
  // What stands beneath the dot takes the lower third of the row.
  const middle = place.middle ?? (panel.panel.beneath && !options.compact ? 0.36 : 0.5);
  const rows = panel.rows.map((row) => ({
    ...{ group: row.group, zero: row.value === 0, told: row.value !== null || row.openUp, row },
    ...{ x: x(row.value), x1: x(row.lower), x2: x(row.upper), y: (row.row + middle) * place.rowHeight },
    ...{ bound1: x(row.boundLower), bound2: x(row.boundUpper) },
    ...{ behind1: x(row.behind?.[0] ?? null), behind2: x(row.behind?.[1] ?? null) },
  }));
  const data = (keep: (row: (typeof rows)[number]) => boolean) => ({
    values: rows.filter(keep).map(({ row: _row, ...values }) => values),
  });
  const rule = (from: string, to: string) => ({ x: pixels(from), x2: { field: to }, y: pixels('y') });
  const point = { type: 'point', filled: true, opacity: 1 };
  const arrow = { ...point, size: 60, color: colour };
  const dot = { ...point, size: 58, stroke: colour, strokeWidth: 1.6 };
  const layers = [
    {
      data: data(({ row }) => row.behind !== null),
      mark: { type: 'rule', color: options.theme.hair, strokeWidth: 16 },
      encoding: rule('behind1', 'behind2'),
    },
    {
      data: data(({ bound1, bound2 }) => bound1 !== null && bound2 !== null),
      mark: { type: 'rule', color: colour, strokeWidth: 1.4, strokeDash: [2, 2] },
      encoding: rule('bound1', 'bound2'),
    },
    {
      data: data(({ told }) => told),
      mark: { type: 'rule', color: colour, strokeWidth: 6, opacity: 0.3 },
      encoding: rule('x1', 'x2'),
    },
    {
      data: data(({ row }) => row.openUp),
      mark: { ...arrow, shape: 'triangle-right' },
      encoding: { x: pixels('x2'), y: pixels('y') },
    },
    {
      data: data(({ row }) => row.openDown),
      mark: { ...arrow, shape: 'triangle-left' },
      encoding: { x: pixels('x1'), y: pixels('y') },
    },
    { data: data(({ row, zero }) => row.value !== null && !zero), mark: { ...dot, fill: colour }, encoding: at },
    { data: data(({ zero }) => zero), mark: { ...dot, fill: options.theme.paper }, encoding: at },
    ...(options.compact ? [] : beneathLayers(panel, place, x, options)),
  ];
  // Each mark says its group, by which the page knows what was pressed.
  return layers
    .filter((layer) => layer.data.values.length > 0)
    .map((layer) => ({
      ...layer,
      mark: { ...layer.mark, aria: true },
      encoding: { ...layer.encoding, description: { field: 'group' } },
    }));
}

/** Small marks under the dots, each kind with a shape of its own. */
function beneathLayers(
  { rows }: PanelData,
  place: PanelPlace,
  x: (value: number) => number | null,
  { theme }: FigureOptions,
) {
  return ['diamond', 'square'].map((shape, kind) => ({
    data: {
      values: rows.flatMap(({ group, row, beneath }) =>
        beneath
          .filter(({ mark }) => mark === kind)
          .map(({ value }) => ({ group, x: x(value), y: (row + 0.76) * place.rowHeight })),
      ),
    },
    mark: {
      ...{ type: 'point', filled: true, opacity: 1, shape, size: 34, strokeWidth: 1.3 },
      ...{ stroke: theme.series[1], fill: kind === 0 ? theme.paper : theme.series[1] },
    },
    encoding: at,
  }));
}

/** Limits of the first row through all of them, and its value: what the others are held against. */
export function bandLayers(panel: PanelData, place: PanelPlace, { theme }: FigureOptions): unknown[] {
  const [first] = panel.rows;
  if (!panel.panel.band || first?.value == null) return [];
  const x = (value: number) => place.left + place.width * panel.scale.share(value);
  const values = [{ x: x(first.lower), x2: x(first.upper), at: x(first.value), y: 0, y2: place.height }];
  return [
    {
      data: { values },
      mark: { type: 'rect', color: theme.accent, opacity: 0.1 },
      encoding: { ...at, x2: { field: 'x2' }, y2: { field: 'y2' } },
    },
    {
      data: { values },
      mark: { type: 'rule', color: theme.accent, strokeWidth: 1.2, strokeDash: [2, 3] },
      encoding: { x: pixels('at'), y: pixels('y'), y2: { field: 'y2' } },
    },
  ];
}

/** The value and its interval in words right of the axis; where there is none, that it cannot be told. */
export function wordLayers(
  panel: PanelData,
  place: PanelPlace,
  { words, over }: { readonly words: boolean; readonly over: NamesOver },
  options: FigureOptions,
): unknown[] {
  const share = over === null ? 0.5 : over === 'one line' ? 0.26 : 0.5;
  const y = (row: number) => (row + share) * place.rowHeight;
  const x = over === 'two lines' ? place.left : place.left + place.width + (over === null ? 12 : 0);
  const start = place.left + (panel.panel.ratio ? place.width * panel.scale.share(1) : 0);
  // A group that has no such number at all says nothing.
  const none = panel.rows.filter(({ value, openUp }) => value === null && !openUp);
  const told = panel.rows.filter((row) => words && !none.includes(row));
  const layer = (values: readonly object[], mark: object) =>
    values.length === 0
      ? []
      : [
          {
            data: { values },
            mark: { type: 'text', align: 'left', baseline: 'middle', fontSize: 12.5, ...mark },
            encoding: { ...at, text: { field: 'text' } },
          },
        ];
  return [
    ...layer(
      told.map(({ text, row }) => ({ text, x, y: y(row) })),
      {
        color: over === 'two lines' ? options.theme.ink2 : options.theme.ink,
        align: over === 'one line' ? 'right' : 'left',
      },
    ),
    ...layer(
      none
        .map(({ row, text, brief }) => ({ row, text: panel.panel.firmness && !options.compact ? text : brief }))
        .filter(({ text }) => text !== '')
        .map(({ row, text }) => ({
          text,
          x: start + 4,
          y: (row + (place.middle ?? 0.5)) * place.rowHeight,
        })),
      { color: options.theme.ink2, fontStyle: 'italic' },
    ),
  ];
}
