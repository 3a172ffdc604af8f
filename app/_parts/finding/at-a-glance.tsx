'use client';

import { useCallback } from 'react';
import { viewToSearch } from '../../../lib/view/index.ts';
import { useFinding } from '../../_state/use-finding.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { questionPages, type QuestionPage } from '../contents.ts';
import { QuestionFigure } from '../figure/question-figure.tsx';
import { PageLink } from '../frame/page-link.tsx';
import { NoRecords } from '../records/no-records.tsx';
import { RecordsGlance } from '../records/records-glance.tsx';
import { chosenForAll } from '../scope/narrow.ts';
import { AlsoAnswered } from './also-answered.tsx';
import { FirmnessLine } from './firmness-line.tsx';
import { answerSoFar } from './answer-so-far.ts';
import { glanceText } from './glance-text.ts';
import { glanceView } from './glance-view.ts';
import { ToldAnswer } from './told-answer.tsx';

/** Every question answered in a sentence and a small figure, all under one scope. */
export function AtAGlance() {
  const { open, opening, untouched } = useRecordSet();
  const nothing = open === null && opening === null && !untouched;
  return (
    <>
      <h1 className="unseen">At a glance: why wheel ends fail early</h1>
      {nothing ? (
        <NoRecords />
      ) : (
        <>
          {open?.report.invented && (
            <p className="invented">
              Invented records: no number here is about a real fleet.{' '}
              <span className="screen-only">Open your own to see yours.</span>
            </p>
          )}
          <div className="glance">
            {questionPages
              .filter(({ atAGlance }) => atAGlance)
              .map((page) => (
                <Glance key={page.id} page={page} />
              ))}
          </div>
          <AlsoAnswered />
          <RecordsGlance />
        </>
      )}
    </>
  );
}

function Glance({ page }: { page: QuestionPage }) {
  const { view, units, change } = useView();
  const seen = glanceView(view, page);
  const { finding: came, settled, current, first, trouble } = useFinding(page.id, seen, units);
  const isWhole = !first;
  const whole = trouble === null ? came : null;
  const finding = whole === null || isWhole ? whole : answerSoFar(whole);
  const narrow = useCallback(
    (by: Readonly<Record<string, string>>) => change((now) => chosenForAll(now, by)),
    [change],
  );
  return (
    <article
      data-question={page.id}
      data-ready={settled || current}
      aria-busy={!settled}
      className={settled || current ? undefined : 'stale'}
    >
      <h2>
        <PageLink path={page.path} search={viewToSearch(seen, units)}>
          {finding?.title ?? page.title}
        </PageLink>
      </h2>
      <p className="glance-answer">
        {trouble
          ? `This could not be answered: ${trouble}`
          : finding && <ToldAnswer finding={finding} text={glanceText(finding)} emphasis={finding.emphasis} />}
      </p>
      {finding && isWhole ? (
        <FirmnessLine firmness={finding.firmness} />
      ) : (
        <p className="firmness">{finding ? 'Its doubts are being checked.' : ''}</p>
      )}
      {finding && finding.data.lives > 0 ? (
        <QuestionFigure {...{ finding, units, height: 240 }} compact onNarrow={narrow} />
      ) : (
        <div className="glance-empty">{finding ? 'No life matches the scope.' : ''}</div>
      )}
    </article>
  );
}
