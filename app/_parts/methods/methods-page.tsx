import type { ReactNode } from 'react';
import { findingCautions, wheelEndCautions } from '../../../shared/cautions.ts';
import { definitions } from '../../../shared/methods/definitions.ts';
import { glossary } from '../../../shared/methods/glossary.ts';
import { methodParts } from '../../../shared/methods/index.ts';
import { neverClaimed } from '../../../shared/methods/never-claimed.ts';
import { anchorOf } from './anchor-of.ts';
import { DoubtsExplained } from './doubts-explained.tsx';
import { FirmnessRuleView } from './firmness-rule-view.tsx';
import { LeakRules } from './leak-rules.tsx';
import { MethodEntry } from './method-entry.tsx';
import { MethodsContents } from './methods-contents.tsx';
import { PlaceAsked } from './place-asked.tsx';
import { Terms } from './terms.tsx';

/** Everything that answers stand on, on one page that a browser's own search goes through. */
export function MethodsPage() {
  return (
    <article className="methods" data-ready="true">
      <h1>Methods</h1>
      <p className="lead">
        What each number is, what it assumes and what can mislead in it; what every doubt means; the words, the rules on
        leaks, and how to stay whole at a wheel end.
      </p>
      <PlaceAsked />
      <MethodsContents />
      <div className="methods-text">
        <Part id="methods" name="How numbers are worked out">
          {methodParts.map(({ name, methods }) => (
            <section key={name} aria-labelledby={anchorOf('methods', name)}>
              <h3 id={anchorOf('methods', name)}>{name}</h3>
              {methods.map((method) => (
                <MethodEntry key={method.id} method={method} />
              ))}
            </section>
          ))}
        </Part>
        <Part id="firmness" name="How firm an answer is">
          <FirmnessRuleView />
        </Part>
        <Part id="doubts" name="Doubts">
          <p>
            Each is checked on the records at hand. It stands against the answer, cannot be told, or was checked and
            holds; the finding says which, by how much, and what would settle it.
          </p>
          <DoubtsExplained />
        </Part>
        <Part id="words" name="Words">
          <h3>Of findings</h3>
          <Terms terms={definitions('an age that each finding names')} />
          <h3>Of the trade</h3>
          <Terms terms={glossary} />
        </Part>
        <LeakRules />
        <Part id="cautions" name="At the wheel end">
          <Lines lines={wheelEndCautions.map(({ long }) => long)} />
        </Part>
        <Part id="never" name="What no number here claims">
          <Lines lines={[...findingCautions.map(({ long }) => long), ...neverClaimed]} />
        </Part>
      </div>
    </article>
  );
}

function Part({ id, name, children }: { id: string; name: string; children: ReactNode }) {
  return (
    <section className="methods-part" aria-labelledby={id}>
      <h2 id={id} tabIndex={-1}>
        {name}
      </h2>
      {children}
    </section>
  );
}

function Lines({ lines }: { lines: readonly string[] }) {
  return (
    <ul className="lines">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
