'use client';

import { useState } from 'react';
import { briefIn, briefText } from '../../../lib/brief/brief-file.ts';
import { briefHtml } from '../../../lib/brief/brief-html.ts';
import type { Brief } from '../../../shared/brief.ts';
import { broughtBriefs } from '../../_state/brief/brought-briefs.ts';
import { messageOf } from '../../_state/record-sets.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { saveFile } from '../finding/save-file.ts';
import { JsonFileButton } from '../frame/json-file-button.tsx';
import { briefArchive, briefDocument } from './brief-document.ts';

/** What a brief becomes, and where it goes on from. */
export function BriefActs({ brief }: { brief: Brief }) {
  const { open } = useRecordSet();
  const { view, units } = useView();
  const [doing, setDoing] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const invented = brief.entries.some(({ finding }) => finding.data.invented);
  const name = `brief${invented ? '-invented' : ''}`;
  const make = (what: string, work: () => Promise<void>) => () => {
    setTrouble(null);
    setDoing(what);
    work()
      .catch((error: unknown) => setTrouble(`${what} failed: ${messageOf(error)}.`))
      .finally(() => setDoing(null));
  };
  const page = make('Writing the brief', async () =>
    saveFile(briefHtml(await briefDocument(brief, open)), `${name}.html`, 'text/html'),
  );
  const archive = make('Writing the brief with its data', async () =>
    saveFile(await briefArchive(brief, open, { view, units }), `${name}.zip`),
  );
  const take = (file: File) => void broughtBriefs.bringIn(file.name, async () => briefIn(await file.text()));
  return (
    <>
      <div className="acts brief-acts" role="group" aria-label="The brief as a file">
        <button type="button" className="main-act" disabled={doing !== null} onClick={page}>
          Brief (HTML)
        </button>
        <button type="button" className="word" disabled={doing !== null || open === null} onClick={archive}>
          With data and methods (zip)
        </button>
        <button
          type="button"
          className="word"
          onClick={() => saveFile(briefText(brief), `${name}.json`, 'application/json')}
        >
          Brief to go on with (JSON)
        </button>
        <JsonFileButton {...{ act: 'Bring in a brief…', label: 'Brief file', kind: 'brief' }} onFile={take} />
        <span role="status" className="quiet">
          {doing !== null && `${doing} …`}
        </span>
      </div>
      {trouble !== null && (
        <p className="notice" role="alert">
          {trouble}
        </p>
      )}
      <p className="quiet brief-how">
        The HTML is one file: it begins with what is to be decided, opens without a network and prints to A4 and Letter
        with numbered pages.
      </p>
    </>
  );
}
