'use client';

import { usePathname } from 'next/navigation';
import { recordSets, type WaitingFiles } from '../../_state/record-sets.ts';
import { columnsPage } from '../contents.ts';
import { bare, PageLink } from '../frame/page-link.tsx';
import { counted } from './column-words.ts';

/** Opening has stopped: files wait until their columns are confirmed, from whatever page. */
export function WaitingStrip({ waiting, search }: { waiting: WaitingFiles; search: string }) {
  const here = bare(usePathname()) === bare(columnsPage);
  const files = waiting.asked.filter(({ likely }) => likely).reduce((sum, one) => sum + one.files.length, 0);
  return (
    <div className="waiting-strip" data-waiting="yes">
      <p role="status">
        Opening {waiting.name} has stopped: {counted(files, 'file')} {files === 1 ? 'is' : 'are'} not in our layout.
      </p>
      {!here && (
        <PageLink path={columnsPage} search={search}>
          Say what their columns mean
        </PageLink>
      )}
      <button type="button" className="word" onClick={recordSets.putAway}>
        Put {files === 1 ? 'it' : 'them'} away
      </button>
    </div>
  );
}
