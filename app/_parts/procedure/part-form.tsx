'use client';

import { displayUnit, type UnitSystem } from '../../../shared/units.ts';
import { limitNames, type Limit, type LimitName, type ProcedurePart } from '../../../shared/procedure.ts';
import { partClasses, roles, steps } from '../../../shared/vocabulary.ts';
import { ticked, withEnd, withLimit } from './edit-procedures.ts';
import { NumberField } from './number-field.tsx';
import { limitQuantity, limitSays, partSays, stepSays, windowSays } from './procedure-words.ts';
import { WordTicks } from './word-ticks.tsx';

interface Props {
  readonly part: ProcedurePart;
  readonly units: UnitSystem;
  readonly first: boolean;
  /** What is wrong with a field, by its path within the part: `limits.endPlayIn.minimum`. */
  readonly problem: (path: string) => string | undefined;
  readonly onChange: (change: Partial<ProcedurePart>) => void;
  readonly onSetApart: (role: ProcedurePart['roles'][number]) => void;
}

/** What one hub build on some axles must meet; every value can be edited. */
export function PartForm({ part, units, first, problem, onChange, onSetApart }: Props) {
  const { symbol } = displayUnit('miles', units);
  return (
    <details className="part" open={first}>
      <summary>
        <b>{partSays(part)}</b>
        <span className="part-limits">
          {limitNames.map((name) => `${limitSays[name]} ${windowSays(part.limits[name], name, units)}`).join('; ')}
        </span>
      </summary>
      <div className="limits">
        {limitNames.map((name) => (
          <LimitFields
            key={name}
            {...{ name, units, limit: part.limits[name] }}
            problem={(end) => problem(`limits.${name}${end === '' ? '' : `.${end}`}`)}
            onChange={(limit) => onChange(withLimit(part, name, limit))}
          />
        ))}
      </div>
      <label className="long-field">
        Setting, as the job is done
        <textarea rows={3} value={part.setting} onChange={({ target }) => onChange({ setting: target.value })} />
      </label>
      <div className="ticks">
        <WordTicks
          {...{ legend: 'Parts a job must list', words: partClasses, list: part.requiredParts }}
          onTick={(word) => onChange({ requiredParts: ticked(partClasses, part.requiredParts, word) })}
        />
        <WordTicks
          {...{ legend: 'Renewed whenever the hub comes off', words: partClasses, list: part.renewedWhenHubComesOff }}
          onTick={(word) =>
            onChange({ renewedWhenHubComesOff: ticked(partClasses, part.renewedWhenHubComesOff, word) })
          }
        />
        <WordTicks
          {...{ legend: 'Steps of the job', words: steps, list: part.steps, says: stepSays }}
          onTick={(word) => onChange({ steps: ticked(steps, part.steps, word) })}
        />
        <WordTicks
          {...{ legend: 'Axles it holds for', words: roles, list: part.roles }}
          onTick={(word) => onChange({ roles: ticked(roles, part.roles, word) })}
        />
      </div>
      {part.roles.length > 1 && (
        <p className="set-apart">
          Ask something else of one axle:{' '}
          {part.roles.map((role) => (
            <button key={role} type="button" className="word" onClick={() => onSetApart(role)}>
              set {role} apart
            </button>
          ))}
        </p>
      )}
      <div className="limits">
        <NumberField
          {...{ label: `Service interval (${symbol})`, quantity: 'miles', units, value: part.serviceIntervalMiles }}
          problem={problem('serviceIntervalMiles')}
          onChange={(serviceIntervalMiles) => onChange({ serviceIntervalMiles })}
        />
        <label className="source-field">
          <span>Source of the rest</span>
          <input
            value={part.source}
            aria-invalid={problem('source') !== undefined}
            onChange={({ target }) => onChange({ source: target.value })}
          />
        </label>
      </div>
    </details>
  );
}

interface LimitProps {
  readonly name: LimitName;
  readonly limit: Limit;
  readonly units: UnitSystem;
  readonly problem: (end: string) => string | undefined;
  readonly onChange: (limit: Limit) => void;
}

function LimitFields({ name, limit, units, problem, onChange }: LimitProps) {
  const quantity = limitQuantity[name];
  const { symbol } = displayUnit(quantity, units);
  const both = problem('');
  return (
    <fieldset className="limit" data-limit={name}>
      <legend>
        {limitSays[name]} <span className="unit">({symbol})</span>
      </legend>
      {(['minimum', 'maximum'] as const).map((end) => (
        <NumberField
          key={end}
          {...{ label: end, quantity, units, value: limit?.[end] ?? null, problem: problem(end) }}
          onChange={(value) => onChange(withEnd(limit, end, value))}
        />
      ))}
      {limit === null ? (
        <p className="quiet">Not known: judges nothing.</p>
      ) : (
        <label className="source-field">
          <span>source</span>
          <input
            value={limit.source}
            aria-invalid={problem('source') !== undefined}
            onChange={({ target }) => onChange({ ...limit, source: target.value })}
          />
        </label>
      )}
      {both !== undefined && <p className="field-problem">{both}</p>}
    </fieldset>
  );
}
