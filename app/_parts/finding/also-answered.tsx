'use client';

import { useView } from '../../_state/use-view.ts';
import { pagesOfPart, partsInUse, questionParts } from '../contents.ts';
import { PageLink } from '../frame/page-link.tsx';

/** The questions without a figure on the front page, as links in their parts. */
export function AlsoAnswered() {
  const { search } = useView();
  const parts = partsInUse
    .map((part) => ({ part, pages: pagesOfPart(part).filter(({ atAGlance }) => !atAGlance) }))
    .filter(({ pages }) => pages.length > 0);
  return (
    <section className="also" aria-labelledby="also">
      <h2 id="also">Also answered</h2>
      <dl>
        {parts.map(({ part, pages }) => (
          <div key={part}>
            <dt>{questionParts[part]}</dt>
            {pages.map(({ path, title }) => (
              <dd key={path}>
                <PageLink {...{ path, search }}>{title}</PageLink>
              </dd>
            ))}
          </div>
        ))}
      </dl>
    </section>
  );
}
