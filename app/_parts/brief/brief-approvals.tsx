'use client';

import { approvalField, type WordingWarning } from '../../../lib/brief/wording-checks.ts';
import {
  approvalDecisions,
  approvalSchema,
  mostApprovals,
  type Approval,
  type ApprovalDecision,
} from '../../../shared/approval.ts';
import { briefStore } from '../../_state/brief/brief-store.ts';
import { BriefField, WordingList } from './brief-field.tsx';

const edit = (edited: (approvals: readonly Approval[]) => Approval[]) =>
  briefStore.edit((brief) => ({ ...brief, approvals: edited(brief.approvals) }));

interface Props {
  readonly approvals: readonly Approval[];
  readonly warnings: readonly WordingWarning[];
}

/** Who is asked to approve the change, what each decided, and when. */
export const BriefApprovals = ({ approvals, warnings }: Props) => (
  <fieldset className="brief-approvals" data-approvals={approvals.length}>
    <legend>Approvals</legend>
    {approvals.length === 0 && <p className="quiet">Nobody is asked to approve it yet.</p>}
    <ol>
      {approvals.map((approval, at) => (
        <ApprovalLine
          key={at}
          {...{ approval, at, warnings: warnings.filter(({ field }) => field === approvalField(at)) }}
        />
      ))}
    </ol>
    <button
      type="button"
      className="word"
      disabled={approvals.length >= mostApprovals}
      onClick={() => edit((all) => [...all, approvalSchema.parse({})])}
    >
      Add who is asked
    </button>
  </fieldset>
);

interface LineProps {
  readonly approval: Approval;
  readonly at: number;
  readonly warnings: readonly WordingWarning[];
}

function ApprovalLine({ approval, at, warnings }: LineProps) {
  const { role, name, decision, date, conditions } = approval;
  const change = (part: Partial<Approval>) =>
    edit((all) => all.map((other, place) => (place === at ? { ...other, ...part } : other)));
  const open = decision === 'open';
  return (
    <li>
      <Line label="Role" text={role} hint="As maintenance manager, safety" onText={(text) => change({ role: text })} />
      <Line label="Name" text={name} hint="As it is to be signed" onText={(text) => change({ name: text })} />
      <label>
        Decision
        <select
          value={decision}
          onChange={({ target }) => {
            const now = target.value as ApprovalDecision;
            change({ decision: now, ...(now === 'open' ? { date: null } : {}) });
          }}
        >
          {Object.entries(approvalDecisions).map(([value, says]) => (
            <option key={value} value={value}>
              {says}
            </option>
          ))}
        </select>
      </label>
      <label>
        Decided on
        <input
          type="date"
          value={date ?? ''}
          disabled={open}
          onChange={({ target }) => change({ date: target.value === '' ? null : target.value })}
        />
      </label>
      <button type="button" className="word" onClick={() => edit((all) => all.filter((_, place) => place !== at))}>
        Take out<span className="unseen">: {role || `approval ${at + 1}`}</span>
      </button>
      {decision === 'with-conditions' || conditions !== '' ? (
        <BriefField
          {...{ name: approvalField(at), label: 'Conditions', hint: 'What has to be met', text: conditions, warnings }}
          onText={(text) => change({ conditions: text.slice(0, 2_000) })}
        />
      ) : (
        <WordingList warnings={warnings} />
      )}
    </li>
  );
}

interface TextProps {
  readonly label: string;
  readonly text: string;
  readonly hint: string;
  readonly onText: (text: string) => void;
}

const Line = ({ label, text, hint, onText }: TextProps) => (
  <label>
    {label}
    <input
      type="text"
      value={text}
      placeholder={hint}
      maxLength={300}
      onChange={({ target }) => onText(target.value)}
    />
  </label>
);
