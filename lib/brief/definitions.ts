import { ageSays } from '../charts/index.ts';
import type { Finding } from '../../shared/finding.ts';
import { definitions } from '../../shared/methods/definitions.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { earlyOf } from '../../shared/view.ts';
import { html, type Markup } from './markup.ts';

/** Section 4: the words of the findings, as the lives are made. */
export function definitionsMarkup(findings: readonly Finding[], units: UnitSystem): Markup {
  const ages = [...new Set(findings.map(({ settings }) => ageSays(earlyOf(settings), settings.axis, units)))];
  const early = ages.length === 0 ? 'an age that each finding names' : ages.join(' or ');
  return html`<dl>
    ${definitions(early).map(
      ({ term, says }) =>
        html`<dt>${term}</dt>
          <dd>${says}</dd>`,
    )}
  </dl>`;
}
