import type { TopLevelSpec } from 'vega-lite';

/** What the drawing worker does: a specification in, a picture out. */
export interface Drawing {
  svg(spec: TopLevelSpec): Promise<string>;
  /** Twice as fine as the screen's pixels, for print. */
  png(spec: TopLevelSpec): Promise<Blob>;
}
