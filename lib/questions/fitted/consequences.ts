import type { Component } from '../../../shared/vocabulary.ts';
import type { View } from '../../../shared/view.ts';
import { numberColumn } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';
import { livesTable } from '../../lives/index.ts';
import { run, type Asking } from '../asking.ts';

/** What is written down of a failure's consequence: 0 nothing, 1 yes, 2 no. */
type Told = Uint8Array;

/** Of every life by its place in the lives table; of those that did not fail nothing is told. */
export interface LifeConsequences {
  readonly lining: Told;
  /** Found at the roadside with the vehicle called out to. */
  readonly roadCall: Told;
}

/** Who found a failure stands in its failure row alone. */
export function consequencesStatement(component: Component, fromRecords: boolean): Statement {
  const lives = identifier(livesTable(component));
  const lining = sql`case l.lining_contaminated when 'yes' then 1 when 'no' then 2 else 0 end as lining`;
  return fromRecords
    ? sql`
select cast(l.life_row as integer) as life_row, ${lining},
  max(case when f.found_by = 'road-call' then 1 when f.found_by is not null then 2 else 0 end) as road_call
from (select rowid as life_row, end_id, state, lining_contaminated from ${lives}) l
left join fleet_failures f on f.failure_id = l.end_id where l.state = 'failed' group by l.life_row, l.lining_contaminated`
    : sql`
select cast(l.rowid as integer) as life_row, ${lining}, 0 as road_call from ${lives} l where l.state = 'failed'`;
}

export async function lifeConsequences(asking: Asking, lives: number): Promise<LifeConsequences> {
  const { source, view } = asking;
  const found = await run(asking, consequencesStatement(view.component, source.fromRecords));
  const [row, soaked, called] = ['life_row', 'lining', 'road_call'].map((name) => numberColumn(found, name)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const [lining, roadCall] = [new Uint8Array(lives), new Uint8Array(lives)];
  for (let at = 0; at < found.rows; at++) {
    lining[row[at] as number] = soaked[at] as number;
    roadCall[row[at] as number] = called[at] as number;
  }
  return { lining, roadCall };
}

/** Failures by what is told of one consequence. */
export interface ToldCounts {
  readonly yes: number;
  readonly no: number;
  readonly unknown: number;
}

export interface Consequences {
  readonly lining: ToldCounts;
  readonly roadCall: ToldCounts;
}

export function consequencesOf({ lining, roadCall }: LifeConsequences, failedRows: Int32Array): Consequences {
  const counts = (told: Told): ToldCounts => {
    const tally = [0, 0, 0];
    for (const row of failedRows) tally[told[row] as number] = (tally[told[row] as number] as number) + 1;
    return { unknown: tally[0] as number, yes: tally[1] as number, no: tally[2] as number };
  };
  return { lining: counts(lining), roadCall: counts(roadCall) };
}

/** The share of failures with a consequence among those that tell; null where too few do. */
const leastTold = 5;
export const shareOf = ({ yes, no }: ToldCounts): number | null => (yes + no < leastTold ? null : yes / (yes + no));

/** Between which shares it lies, whatever those that do not tell had. */
export function shareBounds({ yes, no, unknown }: ToldCounts): readonly [number, number] {
  const all = yes + no + unknown;
  return all === 0 ? [0, 1] : [yes / all, (yes + unknown) / all];
}

/** What a failure costs on average, with so many of a hundred soaking the lining and calling for help on the road. */
export const meanFailureCost = (
  { failureCost, downtimeCost, liningCost, roadCallCost }: View,
  lining: number,
  roadCall: number,
): number => failureCost + downtimeCost + lining * liningCost + roadCall * roadCallCost;
