import type { Finding, QuestionId } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { DrawFigure } from './figure.ts';
import { drawLifeCurves } from './life-curves.ts';
import { drawRows } from './row-figure.ts';
import type { Panel } from './row-figure-data.ts';

const distance = (system: UnitSystem) => (system === 'us' ? 'mi' : 'km');

/** A rate by miles, or by the calendar, as the finding's axis counts. */
const rate = (what: string, name: string, { settings }: Finding): Panel =>
  settings.axis === 'months'
    ? {
        estimate: `${name}PerHundredWheelEndYears`,
        title: () => `${what} per 100 wheel-end years`,
        shortTitle: () => 'per 100 years',
      }
    : {
        estimate: `${name}PerMillionMiles`,
        title: (system) => `${what} per million wheel-end ${distance(system)}`,
        shortTitle: (system) => `per million ${distance(system)}`,
      };
const soakedShare: Panel = {
  estimate: 'contaminatedShareOfLeaks',
  title: () => '% of seal leaks that reached the lining',
  shortTitle: () => '% of seal leaks',
  ceiling: 100,
  bounds: ['contaminatedShareIfUnknownNo', 'contaminatedShareIfUnknownYes'],
};

const timesWithout: Panel = {
  estimate: 'hazardRatio',
  title: () => 'times the hazard without it, adjusted',
  shortTitle: () => 'times, adjusted',
  ratio: true,
  beneath: ['earlyHazardRatio', 'laterHazardRatio'],
  behind: 'shadowHazardRatio',
  firmness: true,
};

const timesExpected: Panel = {
  estimate: 'observedToExpected',
  title: () => 'times the failures expected of like work',
  shortTitle: () => 'times expected',
  ratio: true,
  beneath: ['shrunkenRatio'],
  firmness: true,
};

const leaking = (estimate: string, after: string): Panel => ({
  estimate,
  title: () => `% ${after} by the horizon`,
  shortTitle: () => `% ${after}`,
  ceiling: 100,
});

const figures: Readonly<Record<QuestionId, DrawFigure>> = {
  'seal-life': drawLifeCurves,
  'mean-miles': (finding, options) => drawRows(finding, [rate('failures', 'failures', finding)], options),
  contamination: (finding, options) =>
    drawRows(finding, [rate('soaked linings', 'contaminated', finding), soakedShare], options),
  causes: (finding, options) => drawRows(finding, [timesWithout], options),
  shops: (finding, options) => drawRows(finding, [timesExpected], options),
  detection: (finding, options) =>
    drawRows(
      finding,
      [leaking('foundByHorizon', 'found leaking'), leaking('begunByHorizon', 'begun to leak')],
      options,
    ),
  repeats: (finding, options) =>
    drawRows(
      finding,
      [leaking('failedWithinEarly', 'failed early'), leaking('failedByHorizonHadNoneBeenRenewed', 'failed')],
      options,
    ),
  dose: (finding, options) => drawRows(finding, [rate('failures', 'failures', finding)], options),
  rules: (finding, options) =>
    drawRows(
      finding,
      finding.groups.some(({ estimates }) => estimates['hazardRatio'] !== undefined)
        ? [timesWithout]
        : [leaking('failedByHorizonHadNoneBeenRenewed', 'failed')],
      options,
    ),
};

/** The figure of a finding's question, with the places of its names and ticks. */
export const figureOf: DrawFigure = (finding, options) => figures[finding.question](finding, options);
