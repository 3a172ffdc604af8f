import type { TopLevelSpec } from 'vega-lite';

/** What the drawing worker does: a specification in, a picture out. */
export interface Drawing {
  svg(spec: TopLevelSpec): Promise<string>;
  /** Twice as fine as the screen's pixels, for print. */
  png(spec: TopLevelSpec): Promise<Blob>;
}

/**
 * Vega speaks to screen readers mark by mark; a figure here is one image with its sentence, and its
 * table beside it. Of what marks are called only the group stays, for the page to know what was pressed.
 */
export const asOneImage = (svg: string): string =>
  svg
    .replace(/ (?:role|aria-roledescription|aria-hidden)="[^"]*"/g, '')
    .replace(/ aria-label="([^"]*)"/g, ' data-group="$1"');
