'use client';

import { estimateHead, estimateSays, groupSays, intervalKindSays } from '../../../lib/charts/index.ts';
import type { Finding, Group } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { MethodLinks } from '../methods/method-links.tsx';
import { CountLink } from './lives-link.tsx';

interface Props {
  readonly finding: Finding;
  readonly group: Group;
  readonly name: string;
  readonly units: UnitSystem;
  readonly close: () => void;
}

/** What one number of the table stands on: its method, its interval, and the lives behind it. */
export function NumberGrounds({ finding, group, name, units, close }: Props) {
  const estimate = group.estimates[name];
  if (estimate === undefined) return null;
  const without = group.counts['failuresWithout'];
  return (
    <div
      className="number-grounds"
      id="number-grounds"
      role="region"
      aria-live="polite"
      aria-label="What this number stands on"
    >
      <h3>
        {groupSays(group.by)}: {estimateHead(name, finding, units)}
      </h3>
      <dl>
        <dt>Number</dt>
        <dd>{estimateSays(estimate, units)}</dd>
        <dt>Interval</dt>
        <dd>{intervalKindSays(estimate, units)}</dd>
        <dt>Method</dt>
        <dd>
          {estimate.method} <MethodLinks told={estimate.method} />
        </dd>
        <dt>Lives</dt>
        <dd>
          <CountLink finding={finding} group={group} counted="lives">
            {counted(group.lives)}
          </CountLink>{' '}
          lives,{' '}
          <CountLink finding={finding} group={group} counted="failures">
            {counted(group.failures)}
          </CountLink>{' '}
          failed
          {without === undefined
            ? ''
            : `; of those without it ${counted(group.counts['livesWithout'] ?? 0)}, ${counted(without)} failed`}
        </dd>
      </dl>
      <p>
        Rows, rules, settings and the text of every query stand below, under “What these numbers stand on”.{' '}
        <button type="button" className="word" onClick={close}>
          Close
        </button>
      </p>
    </div>
  );
}

const counted = (value: number): string => value.toLocaleString('en-US');
