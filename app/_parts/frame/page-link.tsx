'use client';

import Link from 'next/link';
import { usePathname, useRouter } from 'next/navigation';
import type { MouseEvent, ReactNode } from 'react';
import { carrySearch, pushSearch } from '../../_state/link.ts';

interface Props {
  readonly path: string;
  /** The view to go along, as a link's query part. */
  readonly search: string;
  /** A place within the page. */
  readonly anchor?: string;
  readonly className?: string;
  readonly current?: boolean;
  readonly children: ReactNode;
}

const plain = (event: MouseEvent) =>
  event.button === 0 && !event.metaKey && !event.ctrlKey && !event.shiftKey && !event.altKey;

/**
 * A link to a page of the app that takes the view along. The router only ever sees bare paths: a
 * page fetched ahead once is then good for every view, also without a network.
 */
export function PageLink({ path, search, anchor, className, current, children }: Props) {
  const router = useRouter();
  const here = usePathname();
  const hash = anchor === undefined ? '' : `#${anchor}`;
  const go = (event: MouseEvent) => {
    if (!plain(event)) return;
    event.preventDefault();
    if (anchor === undefined && bare(path) === bare(here)) {
      pushSearch(search);
      return;
    }
    carrySearch(search);
    router.push(`${path}${hash}`);
  };
  return (
    <Link
      href={`${path}${search}${hash}`}
      prefetch={false}
      className={className}
      aria-current={current ? 'page' : undefined}
      onClick={go}
    >
      {children}
    </Link>
  );
}

export const bare = (path: string): string => path.replace(/\/+$/, '');
