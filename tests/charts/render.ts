import * as vega from 'vega';
import type { TopLevelSpec } from 'vega-lite';
import { drawnSvg } from '../../lib/charts/draw-svg.ts';

/** The figure as SVG text, drawn as the page draws it, without a warning. */
export async function renderSvg(spec: TopLevelSpec): Promise<string> {
  const warnings: string[] = [];
  const logger = vega.logger(vega.Warn);
  logger.warn = (...message: unknown[]) => {
    warnings.push(message.join(' '));
    return logger;
  };
  const svg = await drawnSvg(spec, logger);
  if (warnings.length > 0) throw new Error(`the figure warns: ${warnings.join('; ')}`);
  return svg;
}

export interface Drawn {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly text: string;
  /** Pixels from the drawing's left and top, the translations of all parents added up. */
  readonly x: number;
  readonly y: number;
}

const translation = /translate\((-?[\d.]+)(?:,\s*(-?[\d.]+))?\)/g;

/** Every element in order with its absolute place; enough of an SVG reader for what Vega writes. */
export function drawnElements(svg: string): Drawn[] {
  const elements: Drawn[] = [];
  const places: { x: number; y: number }[] = [{ x: 0, y: 0 }];
  for (const [, closing, tag = '', inside = '', selfClosing, text = ''] of svg.matchAll(
    /<(\/?)(\w+)([^>]*?)(\/?)>([^<]*)/g,
  )) {
    if (closing === '/') {
      places.pop();
      continue;
    }
    const attributes = Object.fromEntries(
      [...inside.matchAll(/([\w-]+)="([^"]*)"/g)].map(([, name, value]) => [name, value]),
    );
    const parent = places.at(-1) ?? { x: 0, y: 0 };
    let [x, y] = [parent.x, parent.y];
    for (const [, dx, dy] of (attributes['transform'] ?? '').matchAll(translation))
      [x, y] = [x + Number(dx), y + Number(dy ?? 0)];
    elements.push({ tag, attributes, text: decode(text), x, y });
    if (selfClosing !== '/') places.push({ x, y });
  }
  return elements;
}

const decode = (text: string) => text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&amp;', '&');
