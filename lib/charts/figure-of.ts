import type { Finding, QuestionId } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { earlyOf, horizonOf } from '../../shared/view.ts';
import { drawSeenBothWays } from './detection-figures.ts';
import { drawDose } from './dose-figure.ts';
import type { DrawFigure } from './figure.ts';
import { drawCostCurves } from './cost-curves.ts';
import { drawLifeCurves } from './life-curves.ts';
import { drawRows } from './row-figure.ts';
import type { Panel } from './row-figure-data.ts';
import { ageSays } from './shown-number.ts';

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

const failedEarly = ({ settings }: Finding): Panel => ({
  ...{ estimate: 'failedWithinEarly', ceiling: 100, longNames: true },
  title: (system) => `% failed within ${ageSays(earlyOf(settings), settings.axis, system)}`,
  shortTitle: () => '% failed early',
});

/** The headline of the rule strip: a ratio where groups are compared, else a share. */
const headline = ({ groups, settings }: Finding): Panel =>
  groups.some(({ estimates }) => estimates['hazardRatio'] !== undefined)
    ? {
        ...{ estimate: 'hazardRatio', ratio: true, longNames: true, band: true },
        title: () => 'times as often, adjusted',
        shortTitle: () => 'times, adjusted',
      }
    : {
        ...{ estimate: 'failedByHorizonHadNoneBeenRenewed', ceiling: 100, longNames: true, band: true },
        title: (system) => `% failed by ${ageSays(horizonOf(settings), settings.axis, system)}, had none been renewed`,
        shortTitle: () => '% failed',
      };

/** Rate of each stretch of a measured value, and its ratio to the middle of the window. */
export const drawStretchRates: DrawFigure = (finding, options) =>
  drawRows(finding, [rate('failures', 'failures', finding)], options);
export const drawStretchRatios: DrawFigure = (finding, options) => drawRows(finding, [timesMiddle], options);

const timesMiddle: Panel = {
  estimate: 'hazardRatio',
  title: () => 'times the hazard of the middle, adjusted',
  shortTitle: () => 'times, adjusted',
  ratio: true,
  reference: 'the others are held against it',
};

/** Against the other shops, before alone beneath it; before alone where no others can be held against it. */
const timesSince = ({ groups }: Finding): Panel =>
  groups.some(({ estimates }) => estimates['hazardRatioAgainstComparison']?.value != null)
    ? {
        ...{ estimate: 'hazardRatioAgainstComparison', ratio: true, longNames: true },
        title: () => 'times that of the other shops, after over before',
        shortTitle: () => 'times, against others',
        beneath: ['hazardRatioAfterBefore'],
      }
    : {
        ...{ estimate: 'hazardRatioAfterBefore', ratio: true, longNames: true },
        title: () => 'times as often after as before, adjusted',
        shortTitle: () => 'times, after / before',
      };

const fewerOfThousand: Panel = {
  ...{ estimate: 'failuresFewerPerThousand', longNames: true },
  title: () => 'failures fewer of 1,000 installations',
  shortTitle: () => 'fewer of 1,000',
};

const ahead = (estimate: string, what: string): Panel => ({
  ...{ estimate, title: () => `${what} expected ahead`, shortTitle: () => what },
});

const figures: Readonly<Record<QuestionId, DrawFigure>> = {
  'seal-life': drawLifeCurves,
  'mean-miles': (finding, options) => drawRows(finding, [rate('failures', 'failures', finding)], options),
  contamination: (finding, options) =>
    drawRows(finding, [rate('soaked linings', 'contaminated', finding), soakedShare], options),
  causes: (finding, options) => drawRows(finding, [timesWithout], options),
  shops: (finding, options) => drawRows(finding, [timesExpected], options),
  detection: drawSeenBothWays,
  repeats: (finding, options) => drawRows(finding, [failedEarly(finding)], options),
  dose: drawDose,
  rules: (finding, options) => drawRows(finding, [headline(finding)], options),
  'after-change': (finding, options) => drawRows(finding, [timesSince(finding)], options),
  savings: (finding, options) => drawRows(finding, [fewerOfThousand], options),
  renewal: drawCostCurves,
  ahead: (finding, options) =>
    drawRows(
      finding,
      [ahead('expectedFailures', 'failures'), ahead('expectedSoakedLinings', 'soaked linings')],
      options,
    ),
};

/** The figure of a finding's question, with the places of its names and ticks. */
export const figureOf: DrawFigure = (finding, options) => figures[finding.question](finding, options);
