'use client';

import { useEffect, useRef } from 'react';
import { usePreferences } from '../../_state/use-preferences.ts';
import { useGo } from '../frame/use-go.ts';
import { pressed } from './shortcut-keys.ts';

/** So long `g` waits for its letter. */
const patience = 1500;

/** Where a key is text, a choice or a dialog's own. */
const takesKeys = 'input, textarea, select, dialog, [contenteditable]:not([contenteditable=false])';

/** The field comes with its page, which may not be there yet. */
function focusSearch(tries = 40): void {
  const field = document.querySelector<HTMLInputElement>('.vehicle-search input');
  if (field) field.focus();
  else if (tries > 0) setTimeout(() => focusSearch(tries - 1), 100);
}

const putInBrief = () => document.querySelector<HTMLButtonElement>('.put-in-brief button:not(:disabled)')?.click();

/** Single keys as shortcuts, where the reader has not switched them off; never where text is written. */
export function useShortcuts(list: () => void): void {
  const { shortcutsOff } = usePreferences();
  const go = useGo();
  const since = useRef(-Infinity);
  useEffect(() => {
    if (shortcutsOff) return;
    const hear = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.isComposing || document.querySelector('dialog[open]')) return;
      if (event.target instanceof Element && event.target.closest(takesKeys)) return;
      const { act, waiting } = pressed(event, event.timeStamp - since.current < patience);
      since.current = waiting ? event.timeStamp : -Infinity;
      if (act === null) return;
      event.preventDefault();
      if (act.is === 'list') list();
      else if (act.is === 'put') putInBrief();
      else if (act.is === 'go') go(act.path);
      else {
        go('/lives/');
        focusSearch();
      }
    };
    document.addEventListener('keydown', hear);
    return () => document.removeEventListener('keydown', hear);
  }, [shortcutsOff, go, list]);
}
