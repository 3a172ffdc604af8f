'use client';

import { useEffect, useId, useRef, useState, type ReactNode, type ToggleEvent } from 'react';

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
    if (event.newState !== 'open' || !button.current || !sheet.current) return;
    const word = button.current.getBoundingClientRect();
    const room = document.documentElement.clientWidth;
    const width = Math.min(340, room - 16);
    const left = Math.max(8, Math.min(word.left, room - width - 8));
    Object.assign(sheet.current.style, {
      ...{ width: `${width}px`, left: `${left + window.scrollX}px`, top: `${word.bottom + window.scrollY + 6}px` },
    });
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
