'use client';

import { useView } from '../../_state/use-view.ts';
import { PageLink } from '../frame/page-link.tsx';

/** Leads from what is said of rows set aside to the rows themselves. */
export function SetAsideLink() {
  const { search } = useView();
  return (
    <small>
      <PageLink path="/records/" search={search}>
        The rows, each with its reason
      </PageLink>
    </small>
  );
}
