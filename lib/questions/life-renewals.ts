import type { Estimate } from '../../shared/finding.ts';
import type { View } from '../../shared/view.ts';
import type { CurveRows } from './curve-rows.ts';
import { noEstimate } from './estimate.ts';

export function failedUnderRenewals(rows: CurveRows, _starts: readonly (number | null)[], view: View): Estimate[] {
  return rows.group.levels.map(() =>
    noEstimate({ level: view.level, unit: 'share', method: 'cumulative incidence', reason: 'pending' }),
  );
}
