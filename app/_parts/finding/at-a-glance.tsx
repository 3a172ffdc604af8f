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
import { FirmnessMark } from './firmness-line.tsx';
import { answerSoFar } from './answer-so-far.ts';
import { glanceView } from './glance-view.ts';
import { hasNoLives } from './no-lives.tsx';
import { ToldAnswer } from './told-answer.tsx';

/** Room for six rows of a figure, and for two rows of questions on a laptop's screen. */
const figureHeight = 186;

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
          <div className="glance-head">
            {open?.report.invented && (
              <p className="invented">Invented records: no number here is about a real fleet.</p>
            )}
            <RecordsGlance />
          </div>
          <div className="glance">
            {questionPages
              .filter(({ atAGlance }) => atAGlance)
              .map((page) => (
                <Glance key={page.id} page={page} />
              ))}
          </div>
          <AlsoAnswered />
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
          : finding && (
              <>
                <FirmnessMark firmness={isWhole ? finding.firmness : null} />{' '}
                <ToldAnswer finding={finding} text={finding.answer} emphasis={finding.emphasis} />
              </>
            )}
      </p>
      {finding && !hasNoLives(finding) ? (
        <QuestionFigure {...{ finding, units, height: figureHeight }} compact onNarrow={narrow} />
      ) : (
        <div className="glance-empty">{finding ? 'No life matches the scope.' : ''}</div>
      )}
    </article>
  );
}
