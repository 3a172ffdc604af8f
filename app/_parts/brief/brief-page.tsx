'use client';

import { useMemo } from 'react';
import { briefSections } from '../../../shared/brief-sections.ts';
import { briefWarnings } from '../../../lib/brief/wording-checks.ts';
import { briefStore } from '../../_state/brief/brief-store.ts';
import { useBrief } from '../../_state/brief/use-brief.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { BriefActs } from './brief-acts.tsx';
import { BriefApprovals } from './brief-approvals.tsx';
import { BriefEntries } from './brief-entries.tsx';
import { BriefField } from './brief-field.tsx';
import { BriefPhotos } from './brief-photos.tsx';
import { BroughtBrief } from './brought-brief.tsx';
import { OtherRecords } from './other-records.tsx';

/** The case for a change of the procedure: findings in order, the engineer's words around them, and what it becomes. */
export function BriefPage() {
  const { brief, kept, trouble } = useBrief();
  const { open } = useRecordSet();
  const procedures = open?.settings.procedures;
  const warnings = useMemo(() => briefWarnings(brief, procedures ?? []), [brief, procedures]);
  const { title, revision, entries } = brief;
  const of = (field: string) => warnings.filter((warning) => warning.field === field);
  return (
    <article className="brief-page" data-ready="true" data-findings={entries.length}>
      <h1>What should change, and why?</h1>
      <p className="answer">
        {entries.length === 0
          ? 'Nothing is in the brief yet. “Put in the brief” stands at the foot of every question.'
          : `${entries.length === 1 ? 'One finding is' : `${entries.length} findings are`} in the brief. What you write stands around them; what the records say of themselves is filled in.`}
      </p>
      {trouble !== null && (
        <p className="notice" role="alert">
          {trouble}
        </p>
      )}
      <BroughtBrief />
      <OtherRecords entries={entries} />
      <BriefActs brief={brief} />
      <label className="keep-brief">
        <input type="checkbox" checked={kept} onChange={() => void briefStore.keep(!kept)} /> Keep this brief in this
        browser, photos too, so that it is here when the page is opened again
      </label>
      <p className="wording-sum" role="status" data-warnings={warnings.length}>
        {warnings.length === 0
          ? 'No wording says more than records can.'
          : `${warnings.length === 1 ? 'One wording says' : `${warnings.length} wordings say`} more than records can: see beneath the words.`}
      </p>
      <div className="brief-heads">
        <BriefField
          {...{ name: 'title', label: 'Title', hint: 'What is to change, in a line', short: true, text: title }}
          warnings={of('title')}
          onText={(text) => briefStore.edit((now) => ({ ...now, title: text }))}
        />
        <BriefField
          {...{ name: 'revision', label: 'Revision', hint: 'A letter or a number', short: true, text: revision }}
          warnings={[]}
          onText={(text) => briefStore.edit((now) => ({ ...now, revision: text.slice(0, 60) }))}
        />
      </div>
      {briefSections.map(({ number, title: head, fields }) => (
        <section key={number} aria-labelledby={`section-${number}`}>
          <h2 id={`section-${number}`}>
            <span className="number">{number}</span> {head}
          </h2>
          {filledIn[number] !== undefined && <p className="quiet filled-in">{filledIn[number]}</p>}
          {number === 6 && <BriefEntries {...{ entries, warnings }} />}
          <div className="brief-fields">
            {fields.map((field) => (
              <BriefField
                key={field.name}
                {...field}
                text={brief.words[field.name] ?? ''}
                warnings={of(field.name)}
                onText={(text) => briefStore.edit((now) => ({ ...now, words: { ...now.words, [field.name]: text } }))}
              />
            ))}
          </div>
          {number === 14 && <BriefApprovals {...{ approvals: brief.approvals, warnings }} />}
          {number === 8 && <BriefPhotos {...{ photos: brief.photos, warnings }} />}
        </section>
      ))}
    </article>
  );
}

/** What the document has in a section of itself. */
const filledIn: Readonly<Record<number, string>> = {
  1: 'Filled in: the failure rate and its period, where “How often” is among the findings.',
  2: 'Filled in: vehicles, wheel ends, hub builds, lubricants, shops, the time watched.',
  3: 'Filled in: rows read, kept and set aside with reasons, completeness, lives cut off, failures found late, assumed miles.',
  4: 'Filled in: life, failure, early failure, preventive removal, deviation, installing shop, firmness.',
  10: 'Filled in: how large what goes with each deviation is, with its interval, where “Which deviations” is among the findings.',
  13: 'Filled in: doubts that stand, with what would settle them.',
  14: 'Filled in: revision, fingerprint of the records, version of the tool.',
};
