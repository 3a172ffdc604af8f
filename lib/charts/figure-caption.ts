import { curveFrom, type Finding, type QuestionId } from '../../shared/finding.ts';
import { percentSign } from '../../shared/percent-sign.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { earlyOf } from '../../shared/view.ts';
import { doseSays } from './dose-data.ts';
import { groupSays } from './plain-words.ts';
import { ageSays } from './shown-number.ts';

const captions = {
  'seal-life': 'Share not yet failed by AGE since installation, had none been renewed early',
  'mean-miles': 'Failure episodes of any wheel-end mode over all WATCHED watched',
  contamination:
    'Soaked linings over all WATCHED watched, and of the seal leaks that say either way the share that reached the lining (dotted: wherever it could lie with those that do not say)',
  causes:
    'How many times as often it fails with as without, what else is known taken into account (beneath: ◇ up to EARLY, ■ after; grey band: what chance alone shows)',
  shops:
    'Failures over those expected of like work; 1 is the average of all (beneath: ◇ drawn to the average of all, the more so the fewer the failures)',
  repeats:
    'Share failed within EARLY, by what went before at the same wheel end; a life is in one of the first two rows and in one of the others',
  dose: '',
  rules: 'The headline answer under every defensible rule; shaded, its limits as the records are read',
  detection:
    'Share found leaking by the horizon, and share that had begun to leak by then: from the interval between the last dry check and the finding',
  'after-change':
    'Failures of what was fitted after over those of what was fitted before, like for like, over the same of the other shops (beneath each: ◇ before these are held against it); the lower rows are the same where nothing was changed',
  savings: 'Failures fewer of 1,000 installations, were the deviations as rare as asked',
  renewal:
    'Cost by miles at which a part is renewed, or at failure where that comes first (dashed: run to failureNAMED)',
  ahead: 'Failures and soaked linings expected ahead among the lives now running, had none been renewed',
} as const;

const ownLimits: Partial<Record<QuestionId, string>> = {
  renewal: 'by draws from the error of the fit, the larger of model and vehicle',
  ahead: 'between which what comes will lie: error of the fit, chance, and what wheel ends of one vehicle share',
};

/** How the miles named are drawn; where none are, nothing is. */
const namedSays = '; thick: within 2 % of the least; dot: the least, and where it may lie';
const namesMiles = ({ estimates }: Finding['groups'][number]): boolean => estimates['renewalMiles']?.value != null;

/** What the figure shows and how its limits are to be read. */
export function figureCaption(finding: Finding, units: UnitSystem): string {
  if (finding.question === 'dose') return doseSays(finding, units);
  const { level } = finding.settings;
  const late = finding.question === 'seal-life' ? lateStarts(finding, units) : '';
  const byCalendar = finding.settings.axis === 'months';
  // Their limits are made otherwise.
  const how = ownLimits[finding.question] ?? 'the wider of model and vehicle';
  const limits = `with ${Number((level * 100).toPrecision(4))}${percentSign} limits, ${how}`;
  const caption = captions[finding.question]
    .replace('NAMED', finding.groups.some(namesMiles) ? namedSays : '')
    .replace('EARLY', ageSays(earlyOf(finding.settings), finding.settings.axis, units))
    .replace('AGE', byCalendar ? 'months' : 'distance')
    .replace('WATCHED', byCalendar ? 'wheel-end years' : 'wheel-end miles');
  return `${caption}; ${limits}.${boundsAlone(finding)}${late}`;
}

const ratioOf: Partial<Record<QuestionId, string>> = { causes: 'hazardRatio', shops: 'observedToExpected' };

/** Too few failures for a ratio leave its bounds, drawn as a bar without a dot. */
function boundsAlone({ question, groups }: Finding): string {
  const name = ratioOf[question];
  const alone = groups.some(({ estimates }) => {
    const estimate = name === undefined ? undefined : estimates[name];
    return estimate?.value === null && (estimate.lower !== null || estimate.upper !== null);
  });
  return alone ? ' A bar without a dot: too few failures for a ratio, its bounds alone.' : '';
}

/** A curve that starts late tells only of those that came so far. */
function lateStarts({ groups, settings }: Finding, units: UnitSystem): string {
  const late = groups.filter((group) => (curveFrom(group) ?? 0) > 0);
  if (late.length === 0) return '';
  const said = late
    .slice(0, 3)
    .map(
      (group) => `${groupSays(group.by)} of those that reached ${ageSays(curveFrom(group) ?? 0, settings.axis, units)}`,
    );
  const more = late.length > 3 ? ` and ${late.length - 3} more` : '';
  return ` Curves start where ten are at risk: ${said.join(', ')}${more}.`;
}
