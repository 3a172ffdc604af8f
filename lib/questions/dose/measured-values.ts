import type { MeasuredQuantity } from '../../../shared/measured.ts';
import type { Component } from '../../../shared/vocabulary.ts';
import { numberColumn } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';
import { livesTable } from '../../lives/index.ts';
import { run, type Asking } from '../asking.ts';

interface Measure {
  readonly value: string;
  readonly least: string;
  readonly most: string;
}

const columns: Readonly<Record<MeasuredQuantity, Measure>> = {
  'inner-torque': { value: 'inner_torque', least: 'inner_least', most: 'inner_most' },
  'outer-torque': { value: 'outer_torque', least: 'outer_least', most: 'outer_most' },
  'end-play': { value: 'end_play', least: 'play_least', most: 'play_most' },
};

/**
 * What the job that began each life measured, and the window of the procedure valid that day; null
 * where nothing was written down. A zero end play is a reading only where one was taken.
 */
export const measuredStatement = (component: Component): Statement => sql`
select cast(l.life_row as integer) as life_row,
  cast(s.inner_torque_ftlb as double) as inner_torque, cast(s."innerTorqueFtLb_minimum" as double) as inner_least, cast(s."innerTorqueFtLb_maximum" as double) as inner_most,
  case when s.nut_system = 'double' then cast(s.outer_torque_ftlb as double) end as outer_torque, cast(s."outerTorqueFtLb_minimum" as double) as outer_least, cast(s."outerTorqueFtLb_maximum" as double) as outer_most,
  case when s.hub_build = 'adjusted' and (s.end_play_in <> 0 or s.end_play_measured = 'yes') then cast(s.end_play_in as double) end as end_play, cast(s."endPlayIn_minimum" as double) as play_least, cast(s."endPlayIn_maximum" as double) as play_most
from (select rowid as life_row, wheel_end, start_service_id from ${identifier(livesTable(component))} where start_service_id is not null) l
join ${identifier(`work_renewals_${component}`)} s on s.service_id = l.start_service_id and s.wheel_end = l.wheel_end`;

/** By place in the lives table; NaN where not told. */
export interface Measured {
  readonly value: Float64Array;
  readonly least: Float64Array;
  readonly most: Float64Array;
}

export type MeasuredValues = Readonly<Record<MeasuredQuantity, Measured>>;

/** Null where no records stand behind the lives. */
export async function measuredValues(
  asking: Asking,
  component: Component,
  lives: number,
): Promise<MeasuredValues | null> {
  if (!asking.source.fromRecords) return null;
  const found = await run(asking, measuredStatement(component));
  const row = numberColumn(found, 'life_row');
  const placed = (name: string) => {
    const [values, own] = [new Float64Array(lives).fill(NaN), numberColumn(found, name)];
    for (let at = 0; at < found.rows; at++) values[row[at] as number] = own[at] as number;
    return values;
  };
  const of = ({ value, least, most }: Measure): Measured => ({
    ...{ value: placed(value), least: placed(least), most: placed(most) },
  });
  return {
    'inner-torque': of(columns['inner-torque']),
    'outer-torque': of(columns['outer-torque']),
    'end-play': of(columns['end-play']),
  };
}
