import type { BriefGrounds } from '../../shared/brief-grounds.ts';
import type { Brief } from '../../shared/brief.ts';
import { toolVersion } from '../../shared/version.ts';
import { approvalsMarkup } from './approvals-markup.ts';
import { html, type Markup } from './markup.ts';

/** Section 14: places to sign, and by what exactly the brief was made. */
export function recordMarkup(brief: Brief, grounds: BriefGrounds | null): Markup {
  const prints = [...new Set(brief.entries.map(({ finding }) => finding.data.fingerprint))];
  return html`${approvalsMarkup(brief.approvals)}
    <dl>
      <dt>Revision</dt>
      <dd>${brief.revision}</dd>
      <dt>Records</dt>
      <dd class="fingerprint">${grounds?.fingerprint ?? 'none were open'}</dd>
      <dt>Findings made from</dt>
      <dd class="fingerprint">${prints.length === 0 ? 'none' : prints.join(', ')}</dd>
      <dt>Procedure judged by</dt>
      <dd>${proceduresSay(grounds)}</dd>
      <dt>Made with</dt>
      <dd>Hubcause ${toolVersion}</dd>
    </dl>`;
}

const proceduresSay = (grounds: BriefGrounds | null): string => {
  const named = grounds?.procedures ?? [];
  if (named.length === 0) return 'the lives came judged';
  return named.map(({ name, version, validFrom }) => `${name}, version ${version}, from ${validFrom}`).join('; ');
};
