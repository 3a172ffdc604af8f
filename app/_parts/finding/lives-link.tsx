'use client';

import type { ReactNode } from 'react';
import { livesBehind, searchWithPick, viewToSearch, type Counted, type LivesBehind } from '../../../lib/view/index.ts';
import type { Finding, Group } from '../../../shared/finding.ts';
import { useView } from '../../_state/use-view.ts';
import { PageLink } from '../frame/page-link.tsx';

interface Props {
  readonly behind: LivesBehind | null;
  readonly children: ReactNode;
}

/** A count that opens to the lives it counts; plain where no list of lives comes to it. */
export function LivesLink({ behind, children }: Props) {
  const { units } = useView();
  if (behind === null) return children;
  return (
    <PageLink
      className="count-link"
      path="/lives/"
      search={searchWithPick(viewToSearch(behind.view, units), behind.pick)}
    >
      {children}
    </PageLink>
  );
}

interface CountProps {
  readonly finding: Finding;
  readonly group: Group | null;
  readonly counted: Counted;
  readonly children: ReactNode;
}

export const CountLink = ({ finding, group, counted, children }: CountProps) => (
  <LivesLink behind={livesBehind(finding, group, counted)}>{children}</LivesLink>
);
