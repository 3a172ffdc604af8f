import { distanceSays, groupSays } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';

const captions = {
  'seal-life': 'Share not yet failed by distance since installation, had none been renewed early',
  'mean-miles': 'Failure episodes of any wheel-end mode over all wheel-end miles watched',
  contamination:
    'Soaked linings over all wheel-end miles watched, and of the seal leaks that say either way the share that reached the lining (dotted: wherever it could lie with those that do not say)',
} as const;

/** What the figure shows and how its limits are to be read. */
export function figureCaption(finding: Finding, units: UnitSystem): string {
  const { level } = finding.settings;
  const limits = `with ${Number((level * 100).toPrecision(4))} % limits, the wider of model and vehicle`;
  const late = finding.question === 'seal-life' ? lateStarts(finding, units) : '';
  return `${captions[finding.question]}; ${limits}.${late}`;
}

/** A curve that starts late tells only of those that came so far. */
function lateStarts({ groups }: Finding, units: UnitSystem): string {
  const late = groups.filter(({ counts }) => (counts['curveFromMiles'] ?? 0) > 0);
  if (late.length === 0) return '';
  const said = late
    .slice(0, 3)
    .map(
      ({ by, counts }) =>
        `${groupSays(by)} of those that reached ${distanceSays(counts['curveFromMiles'] ?? 0, units)}`,
    );
  const more = late.length > 3 ? ` and ${late.length - 3} more` : '';
  return ` Curves start where ten are at risk: ${said.join(', ')}${more}.`;
}
