'use client';

import { useRef, type ChangeEvent } from 'react';
import { openOrBringIn } from '../../_state/columns/brought-in.ts';
import { recordSets } from '../../_state/record-sets.ts';
import { namedFiles } from './dropped-files.ts';

/** File picker, folder picker, the demo fleet tidy and as exported. */
export function OpenActs({ onChosen }: { onChosen?: () => void }) {
  const files = useRef<HTMLInputElement>(null);
  const folder = useRef<HTMLInputElement>(null);
  const take = ({ target }: ChangeEvent<HTMLInputElement>) => {
    const chosen = namedFiles([...(target.files ?? [])]);
    target.value = '';
    if (chosen.length === 0) return;
    onChosen?.();
    void openOrBringIn(chosen);
  };
  const demo = (which: 'tidy' | 'messy') => () => {
    onChosen?.();
    void recordSets.openDemo(which);
  };
  return (
    <p className="open-acts">
      <button type="button" className="main-act" onClick={() => files.current?.click()}>
        Choose files…
      </button>
      <button type="button" className="word" onClick={() => folder.current?.click()}>
        Choose a folder…
      </button>
      <button type="button" className="word" onClick={demo('tidy')}>
        Open the demo fleet
      </button>
      <button type="button" className="word" onClick={demo('messy')}>
        Open it as five shops would export it
      </button>
      <input ref={files} type="file" multiple hidden aria-label="Record files" data-open="files" onChange={take} />
      <input
        ref={folder}
        type="file"
        hidden
        aria-label="Record folder"
        data-open="folder"
        onChange={take}
        {...{ webkitdirectory: '' }}
      />
    </p>
  );
}
