'use client';

import { usePathname, useRouter } from 'next/navigation';
import { useEffect } from 'react';
import { useView } from '../../_state/use-view.ts';
import { columnsPage, pagesAfter, pagesBefore, partsInUse, questionPages, type PlainPage } from '../contents.ts';
import { ContentsPart } from './contents-part.tsx';
import { bare, PageLink } from './page-link.tsx';

const everyPath = [...pagesBefore, ...questionPages, ...pagesAfter].map(({ path }) => path);

/** Every page in the order of the work, the questions by their parts; the view goes along from page to page. */
export function ContentsLine() {
  const { search } = useView();
  const here = bare(usePathname());
  const router = useRouter();
  useEffect(() => {
    for (const path of [...everyPath, columnsPage]) router.prefetch(path);
  }, [router]);
  const plain = ({ path, short }: PlainPage, className?: string) => (
    <li key={path} className={className}>
      <PageLink {...{ path, search }} current={bare(path) === here}>
        {short}
      </PageLink>
    </li>
  );
  return (
    <nav className="contents" aria-label="Questions">
      <ul>
        {pagesBefore.map((page) => plain(page))}
        {partsInUse.map((part) => (
          <li key={part}>
            <ContentsPart {...{ part, here, search }} />
          </li>
        ))}
        {pagesAfter.map((page) => plain(page, 'ground'))}
      </ul>
    </nav>
  );
}
