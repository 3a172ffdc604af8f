'use client';

import { FindingPage } from '../finding/finding-page.tsx';
import { CausesChoices } from './causes-choices.tsx';
import { CausesOnward } from './causes-onward.tsx';
import { CriticalCases } from './critical-cases.tsx';
import { LookedInto } from './looked-into.tsx';
import { MechanismList } from './mechanism-list.tsx';
import { TeardownFindings } from './teardown-findings.tsx';

/** Which deviations go with shorter life: ranking, the one looked into, cases, mechanisms, teardowns. */
export function CausesPage() {
  return (
    <FindingPage
      question="causes"
      choices={<CausesChoices />}
      above={(finding, units) => <LookedInto {...{ finding, units }} />}
      beneath={(finding) => (
        <>
          <CausesOnward finding={finding} />
          <CriticalCases finding={finding} />
          <MechanismList finding={finding} />
          <TeardownFindings finding={finding} />
          <section className="aspect" aria-labelledby="claims">
            <h2 id="claims">What this page says, and what it does not</h2>
            <p>
              It says which deviations written down at installation go with shorter life, how much, how surely, and what
              was taken into account. It does not say what made any part fail: a hurried job may carry several
              deviations and something nobody wrote down. Not written down is not the same as not done. A ratio below 1
              is no proof that a deviation does good. Nothing here is a torque, a setting or a life to work to, nothing
              is about a person, and nothing clears a wheel end for service.
            </p>
          </section>
        </>
      )}
    />
  );
}
