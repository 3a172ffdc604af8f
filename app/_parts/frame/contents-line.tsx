'use client';

import { usePathname, useRouter } from 'next/navigation';
import { useEffect } from 'react';
import { useView } from '../../_state/use-view.ts';
import { questionPages } from '../contents.ts';
import { bare, PageLink } from './page-link.tsx';

const pages = [
  { path: '/', short: 'At a glance' },
  { path: '/records/', short: 'Records' },
  ...questionPages.map(({ path, short }) => ({ path, short })),
];
/** What the answers stand on: no questions, so without a number. */
const grounds = [
  { path: '/lives/', short: 'Lives' },
  { path: '/procedure/', short: 'Procedure' },
];

/** Where opening leads that has stopped; on nobody's list. */
export const columnsPage = '/records/columns/';

/** The numbered questions in the order of the work; the view goes along from page to page. */
export function ContentsLine() {
  const { search } = useView();
  const here = bare(usePathname());
  const router = useRouter();
  useEffect(() => {
    for (const path of [...[...pages, ...grounds].map(({ path }) => path), columnsPage]) router.prefetch(path);
  }, [router]);
  return (
    <nav className="contents" aria-label="Questions">
      <ol>
        {pages.map(({ path, short }, number) => (
          <li key={path}>
            <PageLink {...{ path, search }} current={bare(path) === here}>
              {number > 0 && <span className="number">{number}</span>}
              {short}
            </PageLink>
          </li>
        ))}
        {grounds.map(({ path, short }) => (
          <li key={path} className="ground">
            <PageLink {...{ path, search }} current={bare(path) === here}>
              {short}
            </PageLink>
          </li>
        ))}
      </ol>
    </nav>
  );
}
