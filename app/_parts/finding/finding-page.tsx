'use client';

import { useCallback, type ReactNode } from 'react';
import { figureCaption } from '../../../lib/charts/index.ts';
import type { Finding, QuestionId } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { useFinding, type FindingInUse } from '../../_state/use-finding.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { PutInBrief } from '../brief/put-in-brief.tsx';
import { questionPage } from '../contents.ts';
import { QuestionFigure } from '../figure/question-figure.tsx';
import { NoRecords } from '../records/no-records.tsx';
import { lookedInto } from '../scope/narrow.ts';
import { DoubtsSoFar, HeldDoubts } from './doubts.tsx';
import { answerSoFar } from './answer-so-far.ts';
import { doubtsBeneath } from './doubts-place.ts';
import { FindingActs } from './finding-acts.tsx';
import { FirmnessLine } from './firmness-line.tsx';
import { NeighbourLinks } from './neighbour-links.tsx';
import { hasNoLives, NoLives } from './no-lives.tsx';
import { NumbersTable } from './numbers-table.tsx';
import { ProgressStrip } from './progress-strip.tsx';
import { Receipt } from './receipt.tsx';
import { ToldAnswer } from './told-answer.tsx';

type Parts = (finding: Finding, units: UnitSystem) => ReactNode;

interface Props {
  readonly question: QuestionId;
  /** What this question alone is asked for, beneath its heading. */
  readonly choices?: ReactNode;
  /** What stands between the figure and the numbers, and what beneath them. */
  readonly above?: Parts;
  /** What stands in place of figure and numbers while the question lacks something; null where it lacks nothing. */
  readonly instead?: Parts;
  readonly beneath?: Parts;
}

/** One question: its answer, how firm it is, its figure, its doubts, its numbers. */
export function FindingPage({ question, choices, above, instead, beneath }: Props) {
  const { view, units } = useView();
  const { open, opening, untouched } = useRecordSet();
  const inUse = useFinding(question, view, units);
  const { finding, settled, trouble } = inUse;
  const { title } = questionPage(question);
  const waiting = untouched || opening !== null;
  return (
    <article className="question" data-question={question} data-ready={settled} aria-busy={open !== null && !settled}>
      <h1>{finding?.title ?? title}</h1>
      {open === null && !waiting && <NoRecords />}
      {(open !== null || waiting) && choices}
      {trouble && (
        <p className="notice" role="alert">
          This question could not be answered: {trouble}
        </p>
      )}
      {finding && trouble === null ? (
        <Answered {...{ finding, units, inUse, above, instead, beneath }} />
      ) : (
        (open !== null || waiting) &&
        trouble === null && (
          <>
            <ProgressStrip {...inUse} />
            <Waiting />
          </>
        )
      )}
      <NeighbourLinks question={question} />
    </article>
  );
}

/** The room an answer will take, so that nothing jumps when it comes. */
function Waiting() {
  return (
    <div className="waiting" aria-hidden="true">
      <p className="answer" />
      <div className="waiting-figure" />
    </div>
  );
}

interface AnsweredProps {
  readonly above: Parts | undefined;
  readonly instead: Parts | undefined;
  readonly beneath: Parts | undefined;
  readonly finding: Finding;
  readonly units: UnitSystem;
  readonly inUse: FindingInUse;
}

function Answered({ finding: came, units, inUse, above, instead, beneath }: AnsweredProps) {
  const { change } = useView();
  const narrow = useCallback(
    (by: Readonly<Record<string, string>>) => change((view) => lookedInto(view, by)),
    [change],
  );
  const isWhole = !inUse.first;
  const finding = isWhole ? came : answerSoFar(came);
  const none = hasNoLives(finding);
  const lacking = instead?.(finding, units) ?? null;
  const shown = !none && lacking === null;
  return (
    <div className={inUse.settled || inUse.current ? undefined : 'stale'}>
      <div className={shown ? columnsOf(finding, units, isWhole) : undefined}>
        <div className="main-column">
          <Answer finding={finding} isWhole={isWhole} />
          <ProgressStrip {...inUse} />
          {finding.data.invented && <p className="invented">Invented records: no number here is about a real fleet.</p>}
          {shown && (
            <figure>
              <QuestionFigure {...{ finding, units, height: 400 }} onNarrow={narrow} />
              <figcaption>{figureCaption(finding, units)}</figcaption>
            </figure>
          )}
        </div>
        {shown && <DoubtsSoFar doubts={isWhole ? finding.doubts : null} />}
      </div>
      {none && <NoLives />}
      {lacking}
      {shown && (
        <>
          {above?.(finding, units)}
          <NumbersTable {...{ finding, units }} />
          <FindingActs {...{ finding, units }} />
          <PutInBrief {...{ finding, units, whole: isWhole && inUse.settled }} />
          {beneath?.(finding, units)}
          <HeldDoubts doubts={finding.doubts} />
          <Receipt {...{ finding, units }} />
        </>
      )}
    </div>
  );
}

const columnsOf = (finding: Finding, units: UnitSystem, isWhole: boolean): string =>
  isWhole && doubtsBeneath(finding, units) ? 'columns beneath' : 'columns';

/** The answer large, how firm it is, and what there is to say besides. */
function Answer({ finding, isWhole }: { finding: Finding; isWhole: boolean }) {
  return (
    <>
      <p className="answer" aria-live="polite">
        <ToldAnswer finding={finding} text={finding.answer} emphasis={finding.emphasis} />
      </p>
      {finding.asks !== undefined ? (
        <p className="firmness">{finding.asks}</p>
      ) : isWhole ? (
        <FirmnessLine
          firmness={finding.firmness}
          reason={<ToldAnswer finding={finding} text={finding.firmnessReason} emphasis={[]} />}
        />
      ) : (
        <p className="firmness">How firm this is can be said once its doubts are checked.</p>
      )}
      {finding.further !== undefined && (
        <p className="further">
          <ToldAnswer finding={finding} text={finding.further} emphasis={[]} />
        </p>
      )}
    </>
  );
}
