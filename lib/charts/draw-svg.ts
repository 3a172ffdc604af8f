import { parse, View, type LoggerInterface } from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import { compile, type TopLevelSpec } from 'vega-lite';

/**
 * A figure ready to be drawn, in a worker of the page, on the command line or in a test. Expressions
 * are interpreted, never evaluated as code: the page's policy forbids eval.
 */
export function drawnView(spec: TopLevelSpec, logger?: LoggerInterface): View {
  const compiled = compile(spec, logger === undefined ? {} : { logger }).spec;
  const view = new View(parse(compiled, undefined, { ast: true }), { renderer: 'none', expr: expressionInterpreter });
  if (logger !== undefined) view.logger(logger);
  return view;
}

/** A figure as the text of an SVG. */
export async function drawnSvg(spec: TopLevelSpec, logger?: LoggerInterface): Promise<string> {
  const view = drawnView(spec, logger);
  const svg = await view.toSVG();
  view.finalize();
  return svg;
}

/**
 * Vega speaks to screen readers mark by mark; a figure here is one image with its sentence, and its
 * table beside it. Of what marks are called only the group stays, for the page to know what was pressed.
 */
export const asOneImage = (svg: string): string =>
  svg
    .replace(/ (?:role|aria-roledescription|aria-hidden)="[^"]*"/g, '')
    .replace(/ aria-label="([^"]*)"/g, ' data-group="$1"');
