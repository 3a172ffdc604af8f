import * as Comlink from 'comlink';
import type { TopLevelSpec } from 'vega-lite';
import type { Drawing } from './drawing.ts';

let drawing: Comlink.Remote<Drawing> | null = null;

/** The one worker that draws, started with the first figure. */
function drawer(): Comlink.Remote<Drawing> {
  drawing ??= Comlink.wrap<Drawing>(
    new Worker(new URL('./draw-worker.ts', import.meta.url), { type: 'module', name: 'figures' }),
  );
  return drawing;
}

export const drawSvg = (spec: TopLevelSpec): Promise<string> => drawer().svg(spec);

export const figureSvg = async (spec: TopLevelSpec): Promise<Blob> =>
  new Blob([await drawSvg(spec)], { type: 'image/svg+xml' });

export const figurePng = (spec: TopLevelSpec): Promise<Blob> => drawer().png(spec);
