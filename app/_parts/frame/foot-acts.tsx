'use client';

import { useCallback, useState } from 'react';
import { preferences } from '../../_state/preferences.ts';
import { usePreferences } from '../../_state/use-preferences.ts';
import { ShortcutsDialog } from '../shortcuts/shortcuts-dialog.tsx';
import { useShortcuts } from '../shortcuts/use-shortcuts.ts';

/** At the foot of every page: the tour again, and the keys. */
export function FootActs() {
  const { tourDone } = usePreferences();
  const [listed, setListed] = useState(false);
  const list = useCallback(() => setListed(true), []);
  useShortcuts(list);
  const again = () => {
    preferences.change({ tourDone: false });
    window.scrollTo({ top: 0 });
  };
  return (
    <div className="foot-acts">
      <button type="button" className="word" disabled={!tourDone} onClick={again}>
        Take the tour
      </button>
      <button type="button" className="word" aria-haspopup="dialog" onClick={list}>
        Keyboard shortcuts
      </button>
      <ShortcutsDialog open={listed} onClose={() => setListed(false)} />
    </div>
  );
}
