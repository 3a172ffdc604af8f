'use client';

import { FindingPage } from '../finding/finding-page.tsx';
import { OnwardLink } from '../finding/onward-link.tsx';

/** How long do seals last? And on from it: whether a choice of rule made the answer, and whether leaks are found late. */
export const SealLifePage = () => (
  <FindingPage
    question="seal-life"
    beneath={(finding) => (
      <>
        <OnwardLink question="rules" part={{ deviation: null }}>
          Does this answer depend on a choice of rule?
        </OnwardLink>
        {finding.settings.by.includes('lubricant') && (
          <OnwardLink question="detection" part={{}}>
            Leaks, soaked linings and failed bearings by lubricant, side by side
          </OnwardLink>
        )}
      </>
    )}
  />
);
