import { approvalDecisions, type Approval } from '../../shared/approval.ts';
import { html, tableMarkup, type Markup } from './markup.ts';

/** Who is asked, what they decided and when, and a place to sign. */
export function approvalsMarkup(approvals: readonly Approval[]): Markup {
  if (approvals.length === 0) return html`<p class="unwritten">Nobody is asked to approve it yet.</p>`;
  return html`<div class="sign">
    ${tableMarkup(
      'Approvals',
      ['role', 'name', 'decision', 'date', 'signature'],
      approvals.map(({ role, name, decision, date, conditions }) => [
        ...[role, name],
        `${approvalDecisions[decision]}${conditions.trim() === '' ? '' : `: ${conditions.trim()}`}`,
        ...[date ?? '', ''],
      ]),
    )}
  </div>`;
}

const counts = (approvals: readonly Approval[]): [says: string, many: number][] =>
  Object.entries(approvalDecisions).flatMap(([decision, says]) => {
    const many = approvals.filter((approval) => approval.decision === decision).length;
    return many === 0 ? [] : [[says, many]];
  });

/** `Of 3 asked: 1 approved, 2 open`. */
export function approvalsSay(approvals: readonly Approval[]): string {
  if (approvals.length === 0) return 'Nobody is asked to approve it yet.';
  return `Of ${approvals.length} asked: ${counts(approvals)
    .map(([says, many]) => `${many} ${says}`)
    .join(', ')}.`;
}
