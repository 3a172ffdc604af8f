import { estimateHead, methodsOf } from '../charts/index.ts';
import type { Finding } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { html, type Markup } from './markup.ts';

/** How each number was come by, a line a method. */
export const methodsMarkup = (finding: Finding, units: UnitSystem): Markup =>
  html`<h4>Methods, and what was taken into account</h4>
    <ul class="small">
      ${methodsOf(finding).map(
        ({ names, method, limits }) =>
          html`<li>${names.map((name) => estimateHead(name, finding, units)).join(', ')}: ${method}; ${limits}</li>`,
      )}
    </ul>`;
