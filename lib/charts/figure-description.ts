import type { Finding, QuestionId } from '../../shared/finding.ts';
import { componentWords } from './component-words.ts';
import { lifeCurves } from './life-curve-data.ts';
import { columnSays } from './plain-words.ts';
import { percentSign } from '../../shared/percent-sign.ts';

const per = ({ settings }: Finding) =>
  settings.axis === 'months' ? 'per 100 wheel-end years' : 'per million wheel-end miles';

const shows: Readonly<Record<QuestionId, (finding: Finding) => string>> = {
  'seal-life': (finding) =>
    `Step lines of the share of ${componentWords[finding.settings.component].curve} against ${finding.settings.axis === 'months' ? 'months' : 'distance'} since installation`,
  'mean-miles': (finding) => `Failures ${per(finding)}, a dot with its interval`,
  contamination: (finding) =>
    `Soaked linings ${per(finding)} and the share of seal leaks that reached the lining, dots with their intervals`,
  causes: () => 'Adjusted hazard ratio with against without, a dot with its interval for each deviation ranked',
  shops: () => 'Failures over those expected of like work, a dot with its interval for each shop',
  detection: () =>
    'Share found leaking by the horizon and share that had begun to leak by then, one under the other, dots with their intervals',
  repeats: () => 'Share failed within the early stretch, a dot with its interval for lives by what went before them',
  dose: () =>
    'Times the hazard at the middle of the window over the value measured at installation, the procedure’s window shaded, and the lives at each value beneath',
  'after-change': () =>
    'Adjusted hazard ratio of after over before, over the same of the other shops, a dot with its interval where the change was made and where nothing was changed',
  savings: () => 'Failures fewer of 1,000 installations, dots with their intervals, together and for each deviation',
  renewal: () =>
    'Cost by miles of planned renewal, a line with its band, against the cost of running to failure, a dashed line; the stretch within 2\u00a0% of the least is thick',
  ahead: () =>
    'Failures and soaked linings expected ahead among the lives now running, dots with their prediction limits',
  rules: () => 'The headline answer under every defensible rule, a dot with its interval for each rule',
};

/** Groups that are no values of what the view is cut by. */
const labelled: ReadonlySet<string> = new Set(['rules', 'after-change', 'savings']);

/** One or two sentences that say what the figure shows and what it comes to; the same for every reader. */
export function figureDescription(finding: Finding): string {
  const { by, level } = finding.settings;
  const groups = finding.question === 'seal-life' ? lifeCurves(finding).drawn.length : finding.groups.length;
  const parted =
    by.length === 0 || groups < 2 || labelled.has(finding.question)
      ? ''
      : ` for each of ${groups} groups by ${by.map(columnSays).join(' and ')}`;
  const limits = `with ${Number((level * 100).toPrecision(4))}${percentSign} limits`;
  return `${shows[finding.question](finding)}${parted}, ${limits}. ${finding.answer}`;
}
