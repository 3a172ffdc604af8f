'use client';

import { useEffect, useState } from 'react';
import { openOrBringIn } from '../../_state/columns/brought-in.ts';
import { droppedFiles } from './dropped-files.ts';

const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;

/** Files and folders may be dropped anywhere on the page; while they hang over it, it says so. */
export function DropTarget() {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const listening = new AbortController();
    const { signal } = listening;
    const drag = (event: DragEvent) => {
      if (!carriesFiles(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const leave = (event: DragEvent) => event.relatedTarget === null && setOver(false);
    const drop = (event: DragEvent) => {
      if (!carriesFiles(event) || event.dataTransfer === null) return;
      event.preventDefault();
      setOver(false);
      void droppedFiles(event.dataTransfer).then((files) => (files.length > 0 ? openOrBringIn(files) : undefined));
    };
    window.addEventListener('dragover', drag, { signal });
    window.addEventListener('dragleave', leave, { signal });
    window.addEventListener('drop', drop, { signal });
    return () => listening.abort();
  }, []);
  return over ? (
    <div className="drop-veil" aria-hidden="true">
      <p>Let go to open these records</p>
    </div>
  ) : null;
}
