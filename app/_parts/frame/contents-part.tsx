'use client';

import { useId, useRef, type MouseEvent, type ToggleEvent } from 'react';
import { pagesOfPart, questionPages, questionParts, type QuestionPart } from '../contents.ts';
import { bare, PageLink } from './page-link.tsx';
import { placeBeneath } from './place-beneath.ts';

interface Props {
  readonly part: QuestionPart;
  /** The page now open. */
  readonly here: string;
  readonly search: string;
}

/** A part of the contents: a word that opens the list of its questions, each with its number. */
export function ContentsPart({ part, here, search }: Props) {
  const id = useId();
  const button = useRef<HTMLButtonElement>(null);
  const sheet = useRef<HTMLDivElement>(null);
  const pages = pagesOfPart(part);
  const holdsThis = pages.some(({ path }) => bare(path) === here);
  const place = (event: ToggleEvent<HTMLDivElement>) => {
    if (event.newState === 'open' && button.current && sheet.current) placeBeneath(button.current, sheet.current, 360);
  };
  // The frame stays while pages change: nothing else would close the list.
  const chosen = ({ target }: MouseEvent<HTMLElement>) => {
    if (target instanceof Element && target.closest('a')) sheet.current?.hidePopover();
  };
  return (
    <>
      <button
        ref={button}
        type="button"
        className="contents-part"
        popoverTarget={id}
        aria-current={holdsThis ? 'true' : undefined}
      >
        {questionParts[part]}
      </button>
      <div {...{ id, ref: sheet, popover: 'auto', className: 'contents-list' }} onBeforeToggle={place} onClick={chosen}>
        <ol>
          {pages.map(({ path, short, title, id: question }) => (
            <li key={path}>
              <PageLink {...{ path, search }} current={bare(path) === here}>
                <span className="number">{questionPages.findIndex((page) => page.id === question) + 1}</span>
                <span>
                  {short}
                  <small>{title}</small>
                </span>
              </PageLink>
            </li>
          ))}
        </ol>
      </div>
    </>
  );
}
