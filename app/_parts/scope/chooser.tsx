'use client';

import { useEffect, useId, useRef, useState, type ReactNode, type ToggleEvent } from 'react';
import { placeBeneath } from '../frame/place-beneath.ts';

/** An underlined word of the sentence; pressed, it opens its choices beneath it. */
export function Chooser({ label, word, children }: { label: string; word: string; children: ReactNode }) {
  const id = useId();
  const button = useRef<HTMLButtonElement>(null);
  const sheet = useRef<HTMLDivElement>(null);
  const [open, setOpen] = useState(false);
  useEffect(() => {
    if (open) sheet.current?.querySelector<HTMLElement>('input, select, button')?.focus();
  }, [open]);
  const place = (event: ToggleEvent<HTMLDivElement>) => {
    if (event.newState === 'open' && button.current && sheet.current) placeBeneath(button.current, sheet.current, 340);
  };
  return (
    <>
      <button ref={button} type="button" className="scope-word" popoverTarget={id} aria-haspopup="dialog">
        <span className="unseen">{label}: </span>
        {word}
      </button>
      <div
        {...{ id, ref: sheet, popover: 'auto', className: 'chooser', role: 'dialog', 'aria-label': label }}
        onBeforeToggle={place}
        onToggle={(event) => setOpen(event.newState === 'open')}
      >
        {open && children}
        <button type="button" className="word chooser-done" popoverTarget={id} popoverTargetAction="hide">
          Done
        </button>
      </div>
    </>
  );
}
