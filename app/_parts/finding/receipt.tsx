'use client';

import { useState } from 'react';
import { estimateHead, methodsOf } from '../../../lib/charts/index.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { useDeskAnswer } from '../../_state/use-desk-answer.ts';
import { MethodLinks } from '../methods/method-links.tsx';

interface Props {
  readonly finding: Finding;
  readonly units: UnitSystem;
}

/** What the numbers of a page stand on: rows, rules, settings, methods with their limits, queries. */
export function Receipt({ finding, units }: Props) {
  const [open, setOpen] = useState(false);
  return (
    <details className="receipt" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>What these numbers stand on: rows, rules, settings, methods, queries</summary>
      {open && <Grounds {...{ finding, units }} />}
    </details>
  );
}

function Grounds({ finding, units }: Props) {
  const { data, settings, question } = finding;
  const queries = useDeskAnswer(JSON.stringify([question, settings]), ({ desk }) => desk.queries(question, settings));
  const count = (value: number) => value.toLocaleString('en-US');
  return (
    <dl>
      <dt>Rows</dt>
      <dd>
        {data.files.map(({ name, table, read, kept, setAside }) => (
          <div key={name}>
            {name} ({table}): {count(read)} read, {count(kept)} kept, {count(setAside)} set aside
          </div>
        ))}
        <div className="code">Records {data.fingerprint}</div>
      </dd>
      <dt>Rules</dt>
      <dd>
        {(data.procedures ?? []).map(({ name, version, validFrom }) => (
          <div key={`${name} ${version}`}>
            Deviations judged by “{name}”, version {version}, from {validFrom}
          </div>
        ))}
        {(data.procedures ?? []).length === 0 && 'The lives came judged.'}
      </dd>
      <dt>Settings</dt>
      <dd className="code">{JSON.stringify(settings)}</dd>
      <dt>Methods and limits</dt>
      <dd>
        {methodsOf(finding).map(({ names, method, limits }) => (
          <div key={method}>
            {names.map((name) => estimateHead(name, finding, units)).join(', ')}: {method}; {limits}{' '}
            <MethodLinks told={method} />
          </div>
        ))}
      </dd>
      <dt>Queries</dt>
      <dd>
        {queries.trouble ?? null}
        {Object.entries(queries.value ?? {}).map(([name, text]) => (
          <details key={name}>
            <summary>{name}</summary>
            <pre tabIndex={0}>{text}</pre>
          </details>
        ))}
      </dd>
    </dl>
  );
}
