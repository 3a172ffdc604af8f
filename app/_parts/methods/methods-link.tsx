'use client';

import type { ReactNode } from 'react';
import { useView } from '../../_state/use-view.ts';
import { methodsPage } from '../contents.ts';
import { PageLink } from '../frame/page-link.tsx';

/** To a place of the methods page; the view goes along, so that the way back leads to it. */
export function MethodsLink({ anchor, children }: { anchor: string; children: ReactNode }) {
  const { search } = useView();
  return (
    <PageLink path={methodsPage} {...{ search, anchor }} className="methods-link">
      {children}
    </PageLink>
  );
}
