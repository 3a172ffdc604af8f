import type { TopLevelSpec } from 'vega-lite';
import type { Finding } from '../../shared/finding.ts';
import { figureOf } from './figure-of.ts';
import type { FigureOptions, Margin } from './figure.ts';
import { textWidth } from './text-width.ts';

interface Line {
  readonly text: string;
  readonly size: number;
  readonly weight: number;
  readonly quiet: boolean;
}

/** A text broken into lines no wider than `room` pixels. */
export function wrapText(text: string, size: number, room: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`, size) <= room) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

const head = (finding: Finding, width: number): Line[] => [
  { text: finding.title, size: 19, weight: 600, quiet: false },
  ...wrapText(finding.answer, 14, width).map((text) => ({ text, size: 14, weight: 400, quiet: false })),
  { text: `${finding.firmness}: ${finding.firmnessReason}`, size: 12, weight: 400, quiet: true },
];

function foot(finding: Finding, width: number, scope: string): Line[] {
  const { data, cautions } = finding;
  const invented = data.invented ? 'Invented records: no real fleet. ' : '';
  const texts = [`${invented}${scope}`, `Records ${data.fingerprint}.`, cautions.join(' ')];
  return texts
    .flatMap((text) => wrapText(text, 11, width))
    .map((text) => ({ text, size: 11, weight: 400, quiet: true }));
}

const lineHeight = ({ size }: Line) => Math.round(size * 1.45);
const heightOf = (lines: readonly Line[]) => lines.reduce((sum, line) => sum + lineHeight(line), 0);

/**
 * A figure fit to leave the page alone: question, answer and firmness above it, what it stands on
 * and the cautions beneath. `scope` is the sentence of what was looked at.
 */
export function figureSheet(finding: Finding, options: FigureOptions, scope: string): TopLevelSpec {
  const figure = figureOf(finding, { ...options, atRisk: true });
  const spec = figure.spec as unknown as { padding: Margin; height: number; layer: unknown[] };
  const [above, below] = [head(finding, options.width - 32), foot(finding, options.width - 32, scope)];
  const margin = { ...spec.padding, left: spec.padding.left + 16, right: spec.padding.right + 16 };
  const [top, bottom] = [heightOf(above) + 30, heightOf(below) + 26];
  const start = -(spec.padding.top + heightOf(above) + 14);
  const end = spec.height + spec.padding.bottom + 10;
  const layers = [
    ...textLayers(above, -spec.padding.left, start, options),
    ...textLayers(below, -spec.padding.left, end, options),
  ];
  const sheet = {
    ...spec,
    background: options.theme.paper,
    padding: { ...margin, top: spec.padding.top + top, bottom: spec.padding.bottom + bottom },
    layer: [...spec.layer, ...layers],
  };
  return sheet as unknown as TopLevelSpec;
}

function textLayers(lines: readonly Line[], x: number, start: number, { theme }: FigureOptions): unknown[] {
  let y = start;
  return lines.map((line) => {
    const at = y;
    y += lineHeight(line);
    return {
      data: { values: [{ text: line.text }] },
      mark: {
        ...{ type: 'text', align: 'left', baseline: 'top', fontSize: line.size, fontWeight: line.weight },
        color: line.quiet ? theme.ink2 : theme.ink,
      },
      encoding: { x: { value: x }, y: { value: at }, text: { field: 'text' } },
    };
  });
}
