'use client';

import { usePathname } from 'next/navigation';
import { useState } from 'react';
import { withRecords } from '../../../lib/view/index.ts';
import { settingsText } from '../../../shared/settings-file.ts';
import { carrySearch, pushSearch } from '../../_state/link.ts';
import { settingsOfView, takeSettings } from '../../_state/settings-of-view.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { saveFile } from '../finding/save-file.ts';
import { JsonFileButton } from '../frame/json-file-button.tsx';
import { bare } from '../frame/page-link.tsx';
import { useGo } from '../frame/use-go.ts';

interface Said {
  readonly text: string;
  /** The link itself where it could not be copied. */
  readonly link?: string;
}

/** The view elsewhere: a link for whoever has the same records as they are, a settings file for the rest. */
export function ShareView() {
  const { open } = useRecordSet();
  const { view, units } = useView();
  const page = usePathname();
  const go = useGo();
  const [said, setSaid] = useState<Said | null>(null);
  const copy = () => {
    if (open === null) return;
    const link = withRecords(window.location.href, { records: open.report.fingerprint, settled: open.fingerprint });
    const changed = open.fingerprint !== open.report.fingerprint;
    const more = changed ? ' Settings of these records were changed here: send the settings file along.' : '';
    navigator.clipboard.writeText(link).then(
      () => setSaid({ text: `The link is copied. It holds the view, not the records.${more}` }),
      () => setSaid({ text: `The link, to be copied by hand. It holds the view, not the records.${more}`, link }),
    );
  };
  const save = () => {
    if (open !== null)
      saveFile(settingsText(settingsOfView(open, page, view, units)), 'settings.json', 'application/json');
  };
  const take = (file: File) => {
    setSaid({ text: `Taking ${file.name} …` });
    void takeSettings(file).then((taken) => {
      if ('refused' in taken) {
        setSaid({ text: taken.refused });
        return;
      }
      if (bare(taken.page) === bare(page)) pushSearch(taken.search);
      else {
        carrySearch(taken.search);
        go(taken.page);
      }
      setSaid({ text: `${file.name} holds here now.${taken.brief === null ? '' : ` ${taken.brief}`}` });
    });
  };
  return (
    <div className="acts share" role="region" aria-label="Share this view">
      <button type="button" className="word" disabled={open === null} onClick={copy}>
        Copy a link to this view
      </button>
      <button type="button" className="word" disabled={open === null} onClick={save}>
        Settings (JSON)
      </button>
      <JsonFileButton {...{ act: 'Bring in settings…', label: 'Settings file', kind: 'settings' }} onFile={take} />
      <span role="status" className="quiet">
        {said?.text}
        {said?.link !== undefined && <input readOnly aria-label="Link" value={said.link} size={30} />}
      </span>
    </div>
  );
}
