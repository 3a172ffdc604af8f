import { ageSays } from '../charts/index.ts';
import type { Finding } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { earlyOf } from '../../shared/view.ts';
import { html, type Markup } from './markup.ts';

/** Section 4: the words of the findings, as the lives are made. */
export function definitionsMarkup(findings: readonly Finding[], units: UnitSystem): Markup {
  const ages = [...new Set(findings.map(({ settings }) => ageSays(earlyOf(settings), settings.axis, units)))];
  const early = ages.length === 0 ? 'an age that each finding names' : ages.join(' or ');
  return html`<dl>
    <dt>Life</dt>
    <dd>
      A part at one wheel end from its installation to its failure, its renewal for another reason, or the end of
      watching.
    </dd>
    <dt>Failure</dt>
    <dd>A failure record of a mode of that part, placed on the life in which it was found.</dd>
    <dt>Early failure</dt>
    <dd>A failure up to ${early} after installation.</dd>
    <dt>Preventive removal</dt>
    <dd>A renewal with no failure of the part recorded before it. The life is cut off there, not counted as failed.</dd>
    <dt>Deviation</dt>
    <dd>
      A step, part or value of the installing job that the procedure in force does not allow, told at installation and
      not after the failure. “No” needs evidence; what nobody wrote down is “not known”.
    </dd>
    <dt>Installing shop</dt>
    <dd>The shop whose service fitted the part, whoever found the failure.</dd>
    <dt>Firmness</dt>
    <dd>
      Of a comparison. Firm: at least 30 failures in each group, no doubt that stands against it, and either p below
      0.05, corrected for the number compared, or the whole interval between 0.8 and 1.25. Fair: at least 15 in each
      group. Thin: 5 to 14. Too few: under 5, with counts and bounds only. One group alone: by its failures and the
      width of its interval.
    </dd>
  </dl>`;
}
