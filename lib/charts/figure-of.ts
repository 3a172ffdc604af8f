import type { QuestionId } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { DrawFigure } from './figure.ts';
import { drawLifeCurves } from './life-curves.ts';
import { drawRows } from './row-figure.ts';
import type { Panel } from './row-figure-data.ts';

const distance = (system: UnitSystem) => (system === 'us' ? 'mi' : 'km');

const failureRate: Panel = {
  estimate: 'failuresPerMillionMiles',
  title: (system) => `failures per million wheel-end ${distance(system)}`,
  shortTitle: (system) => `per million ${distance(system)}`,
};
const soakedRate: Panel = {
  estimate: 'contaminatedPerMillionMiles',
  title: (system) => `soaked linings per million wheel-end ${distance(system)}`,
  shortTitle: (system) => `per million ${distance(system)}`,
};
const soakedShare: Panel = {
  estimate: 'contaminatedShareOfLeaks',
  title: () => '% of seal leaks that reached the lining',
  shortTitle: () => '% of seal leaks',
  ceiling: 100,
  bounds: ['contaminatedShareIfUnknownNo', 'contaminatedShareIfUnknownYes'],
};

const figures: Readonly<Record<QuestionId, DrawFigure>> = {
  'seal-life': drawLifeCurves,
  'mean-miles': (finding, options) => drawRows(finding, [failureRate], options),
  contamination: (finding, options) => drawRows(finding, [soakedRate, soakedShare], options),
};

/** The figure of a finding's question, with the places of its names and ticks. */
export const figureOf: DrawFigure = (finding, options) => figures[finding.question](finding, options);
