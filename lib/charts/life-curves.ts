import type { TopLevelSpec } from 'vega-lite';
import { figureFrame, type DrawFigure } from './figure.ts';
import { figureDescription } from './figure-description.ts';
import { lifeCurves } from './life-curve-data.ts';
import { lifeCurveFrame } from './life-curve-frame.ts';
import { curveLayers, horizonLayers, nameLayers, riskLayers } from './life-curve-layers.ts';

/** Share not yet failed against age: one step line a group, its limits a band, its name at its end. */
export const drawLifeCurves: DrawFigure = (finding, options) => {
  const { drawn, ...left } = lifeCurves(finding);
  const frame = lifeCurveFrame(finding, drawn, options);
  const { datasets, layers } = curveLayers(finding, drawn, frame, options);
  const spec = {
    ...figureFrame(frame.margin, options.theme, figureDescription(finding)),
    ...frame.plot,
    datasets,
    layer: [
      ...layers,
      ...horizonLayers(finding, frame, options),
      ...nameLayers(drawn, frame, options),
      ...riskLayers(finding, frame, options),
    ],
  };
  const { labels, ticks, namesLeft } = frame;
  return {
    spec: spec as unknown as TopLevelSpec,
    width: options.width,
    height: options.height,
    labels,
    ticks,
    namesLeft,
    ...left,
  };
};
