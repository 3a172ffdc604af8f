'use client';

import type { DragEvent } from 'react';
import { scopeSentence } from '../../../lib/charts/index.ts';
import { viewToSearch } from '../../../lib/view/index.ts';
import type { WordingWarning } from '../../../lib/brief/wording-checks.ts';
import type { BriefEntry } from '../../../shared/brief.ts';
import { shortPrint } from '../../../shared/settings-file.ts';
import { briefStore } from '../../_state/brief/brief-store.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { questionPage } from '../contents.ts';
import { Emphasised } from '../finding/emphasised.tsx';
import { PageLink } from '../frame/page-link.tsx';
import { BriefField } from './brief-field.tsx';

export type Way = 'up' | 'down';

interface EntryProps {
  readonly entry: BriefEntry;
  readonly at: number;
  readonly count: number;
  readonly warnings: readonly WordingWarning[];
  readonly onMove: (to: number, way: Way) => void;
  readonly onDropped: (id: string) => void;
}

const dragged = 'text/x-finding';

/** One finding of the brief: its answer, where it stands, a note to it, and whether it is of the records that are open. */
export function Entry({ entry, at, count, warnings, onMove, onDropped }: EntryProps) {
  const { id, finding, units, note } = entry;
  const { open } = useRecordSet();
  const others = open !== null && open.fingerprint !== finding.data.fingerprint;
  const over = (event: DragEvent) => event.dataTransfer.types.includes(dragged) && event.preventDefault();
  const drop = (event: DragEvent) => {
    event.preventDefault();
    onDropped(event.dataTransfer.getData(dragged));
  };
  return (
    <li data-entry={id} data-question={finding.question} onDragOver={over} onDrop={drop}>
      <div className="entry-head">
        <span
          className="handle"
          draggable
          aria-hidden="true"
          title="Drag to another place"
          onDragStart={({ dataTransfer }) => dataTransfer.setData(dragged, id)}
        >
          ⠿
        </span>
        <h3>
          6.{at + 1} {finding.title}
        </h3>
        <span className="entry-acts" role="group" aria-label={`Place of “${finding.title}”`}>
          <button
            type="button"
            className="word"
            data-move="up"
            disabled={at === 0}
            onClick={() => onMove(at - 1, 'up')}
          >
            Up<span className="unseen">: {finding.title}</span>
          </button>
          <button
            type="button"
            className="word"
            data-move="down"
            disabled={at === count - 1}
            onClick={() => onMove(at + 1, 'down')}
          >
            Down<span className="unseen">: {finding.title}</span>
          </button>
          <button type="button" className="word" onClick={() => briefStore.remove(id)}>
            Take out<span className="unseen">: {finding.title}</span>
          </button>
        </span>
      </div>
      <p className="entry-answer">
        <Emphasised text={finding.answer} emphasis={finding.emphasis} /> <b>Firmness: {finding.firmness}.</b>
      </p>
      {finding.further !== undefined && <p className="quiet entry-scope">{finding.further}</p>}
      <p className="quiet entry-scope">
        {scopeSentence(finding.settings, units)}{' '}
        <PageLink path={questionPage(finding.question).path} search={viewToSearch(finding.settings, units)}>
          Open it
        </PageLink>
      </p>
      {others && (
        <p className="made-from-others" data-other-records="yes">
          Made from other records or settings ({shortPrint(finding.data.fingerprint)}) than are open here (
          {shortPrint(open.fingerprint)}).
        </p>
      )}
      <BriefField
        {...{ name: `note-${at + 1}`, label: 'Your note to it', hint: 'What it means for the change', text: note }}
        warnings={warnings}
        onText={(text) =>
          briefStore.edit((brief) => ({
            ...brief,
            entries: brief.entries.map((other) => (other.id === id ? { ...other, note: text } : other)),
          }))
        }
      />
    </li>
  );
}
