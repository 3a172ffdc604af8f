import { adjustableLives, type AdjustableLives } from '../adjustment/adjustable-lives.ts';
import { adjustmentOf, type Adjustment } from '../adjustment/adjustment.ts';
import { cellsOf } from '../adjustment/cells-of.ts';
import { pooledLevels } from '../adjustment/pooled-levels.ts';
import type { Asking } from '../asking.ts';
import { askedLives } from '../columns/asked-lives.ts';
import { agesOf } from '../columns/life-columns.ts';
import { gather } from '../gather.ts';
import { scopeOf, type LeftOut } from '../scope.ts';
import type { ModelLives } from './compared-lives.ts';
import { exposureOf, rankedColumns, type Exposure } from './exposure.ts';
import { outcomeAsked, outcomeOf, type OutcomeAsked } from './outcome.ts';

interface Levels {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}

/** Everything the ranking reads. */
export interface CausesEvidence {
  readonly asked: OutcomeAsked;
  /** Places of the lives in the lives table. */
  readonly rows: Int32Array;
  readonly lives: ModelLives;
  readonly exposures: readonly Exposure[];
  readonly adjustment: Adjustment;
  /** Year of installation and build of each life, for leaving one out and for telling apart. */
  readonly year: Levels;
  readonly build: Levels;
  /** Lives whose miles are carried on beyond readings. */
  readonly estimated: number;
  readonly leftOut: AdjustableLives['leftOut'] & Pick<LeftOut, 'estimated'>;
}

export async function causesEvidence(asking: Asking): Promise<CausesEvidence> {
  const { source, view, signal } = asking;
  const asked = outcomeAsked(view);
  const lives = askedLives(source, asked.component);
  const scope = await scopeOf({ ...asking, view: { ...view, by: [] } }, lives);
  const columns = await lives.columns(signal);
  const able = adjustableLives(scope.rows, columns, agesOf(columns, view.axis));
  const { exit, cause, event } = await outcomeOf(view, lives, able, columns, signal);
  const { rows, entry } = able;
  const exposures: Exposure[] = [];
  for (const column of rankedColumns(view)) exposures.push(exposureOf(column, await lives.cut(column, signal), rows));
  const compared = exposures.filter(({ deviation }) => deviation === null).map(({ column }) => column);
  const adjustment = await adjustmentOf(asking, lives, { rows, event, compared });
  const levelsOf = async (column: string): Promise<Levels> => {
    const { levels, codes } = await lives.cut(column, signal);
    return { levels, codes: gather(codes, rows) };
  };
  const shop = pooledLevels('shop', await lives.cut('shop', signal), rows, event);
  return {
    ...{ asked, rows, exposures, adjustment },
    lives: {
      ...{ entry, exit, event, cause },
      miles:
        view.axis === 'miles' ? exit.map((end, at) => end - (entry[at] as number)) : gather(columns.exposure, rows),
      strata: adjustment.strata,
      strataOf: adjustment.strataOf,
      cluster: adjustment.cluster,
      covariates: adjustment.covariates,
      axle: cellsOf([adjustment.cluster, await levelsOf('axle')], rows.length),
      shop,
    },
    year: await levelsOf('install_year'),
    build: await levelsOf('hub_build'),
    estimated: rows.reduce((sum, row) => sum + (columns.extrapolated[row] as number), 0),
    leftOut: { ...able.leftOut, estimated: scope.leftOut.estimated },
  };
}
