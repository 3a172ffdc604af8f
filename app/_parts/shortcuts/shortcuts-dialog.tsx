'use client';

import { useEffect, useRef } from 'react';
import { preferences } from '../../_state/preferences.ts';
import { usePreferences } from '../../_state/use-preferences.ts';
import { letteredPages } from './shortcut-keys.ts';

const keys = [
  ['?', 'this list'],
  ['/', 'search a vehicle under Lives'],
  ['b', 'put the finding of this page in the brief'],
] as const;

/** Every shortcut, and the switch for those whose keys are taken by something else, or pressed by chance. */
export function ShortcutsDialog({ open, onClose }: { open: boolean; onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const { shortcutsOff } = usePreferences();
  useEffect(() => {
    if (open && !dialog.current?.open) dialog.current?.showModal();
    if (!open) dialog.current?.close();
  }, [open]);
  return (
    <dialog ref={dialog} className="open-dialog shortcuts" aria-labelledby="shortcuts" onClose={onClose}>
      <h2 id="shortcuts">Keyboard shortcuts</h2>
      <dl>
        {keys.map(([key, says]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
      <h3>To a page</h3>
      <dl className="lettered">
        {letteredPages.map(({ path, short, letter }) => (
          <div key={path}>
            <dt>
              <kbd>g</kbd> <kbd>{letter}</kbd>
            </dt>
            <dd>{short}</dd>
          </div>
        ))}
      </dl>
      <label>
        <input
          type="checkbox"
          checked={!shortcutsOff}
          onChange={({ target }) => preferences.change({ shortcutsOff: !target.checked })}
        />{' '}
        Use single keys as shortcuts
      </label>
      <div className="dialog-foot">
        <button type="button" className="word" onClick={onClose}>
          Close the list
        </button>
      </div>
    </dialog>
  );
}
