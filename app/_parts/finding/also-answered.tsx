'use client';

import { useView } from '../../_state/use-view.ts';
import { questionPages } from '../contents.ts';
import { PageLink } from '../frame/page-link.tsx';

/** The questions without a figure on the front page, as links in the order of the work. */
export function AlsoAnswered() {
  const { search } = useView();
  const pages = questionPages.filter(({ atAGlance }) => !atAGlance);
  return (
    <section className="also" aria-labelledby="also">
      <h2 id="also">Also answered</h2>
      <ul>
        {pages.map(({ path, title }) => (
          <li key={path}>
            <PageLink {...{ path, search }}>{title}</PageLink>
          </li>
        ))}
      </ul>
    </section>
  );
}
