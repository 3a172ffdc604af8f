import { z } from 'zod';

/** What somebody who is asked has decided, by the word it is stored as. */
export const approvalDecisions = {
  open: 'open',
  approved: 'approved',
  'with-conditions': 'approved with conditions',
  'not-approved': 'not approved',
} as const;
export type ApprovalDecision = keyof typeof approvalDecisions;

const line = z.string().max(300);

/** One who is asked to approve a change, and what came of it; the name as the writer of the brief put it. */
export const approvalSchema = z.object({
  role: line.default(''),
  name: line.default(''),
  decision: z.enum(Object.keys(approvalDecisions) as [ApprovalDecision, ...ApprovalDecision[]]).default('open'),
  /** The day of the decision; none while it is open. */
  date: z.iso.date().nullable().default(null),
  conditions: z.string().max(2_000).default(''),
});
export type Approval = z.infer<typeof approvalSchema>;

export const mostApprovals = 40;

/**
 * Briefs once held approvals as lines of text among the words: each line becomes one who is still asked.
 * For what a file holds before it is judged.
 */
export function withApprovals(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || !('words' in value)) return value;
  const { words } = value;
  if (typeof words !== 'object' || words === null || !('approvals' in words)) return value;
  const { approvals, ...others } = words;
  const lines = typeof approvals === 'string' ? approvals.split('\n').filter((text) => text.trim() !== '') : [];
  const asked = lines.slice(0, mostApprovals).map((text) => ({ role: text.trim().slice(0, 300) }));
  return { approvals: asked, ...value, words: others };
}
