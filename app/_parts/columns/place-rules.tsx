'use client';

import type { ColumnMap } from '../../../shared/column-map.ts';
import { withRule } from '../../_state/columns/answering.ts';
import type { EditMap } from '../../_state/columns/edit-columns.ts';

/** Spellings of places that were settled once for all their rows. */
export function PlaceRules({ map, edit }: { map: ColumnMap; edit: EditMap }) {
  const { rules = [] } = map.positions ?? {};
  if (rules.length === 0) return null;
  return (
    <ul className="place-rules" aria-label="Spellings settled by a rule">
      {rules.map((rule) => (
        <li key={`${rule.spelling} ${rule.roles ?? ''}`}>
          “{rule.spelling}”{rule.roles !== undefined && ` on units with the axles ${rule.roles.replaceAll(' ', ', ')}`}{' '}
          is always axle {rule.axle} {rule.side}.{' '}
          <button type="button" className="word" onClick={() => edit((now) => withRule(now, rule, false))}>
            Take this rule back
          </button>
        </li>
      ))}
    </ul>
  );
}
