import type { Component } from '../../../shared/vocabulary.ts';
import { numberColumn } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';
import { livesTable } from '../../lives/index.ts';
import { run, type Asking } from '../asking.ts';

/** How the life before ended at the same wheel end. */
export const before = { untold: 0, failed: 1, renewed: 2 } as const;

/** The life before each at its wheel end, where one is told: whether a failure ended it. */
export const earlierLivesStatement = (component: Component): Statement => {
  const lives = identifier(livesTable(component));
  return sql`
select cast(l.life_row as integer) as life_row, max(case when p.state = 'failed' then 1 else 2 end) as before
from (select rowid as life_row, unit_id, axle, side, life_number from ${lives}) l
join (select unit_id, axle, side, life_number, state from ${lives}) p
on p.unit_id = l.unit_id and p.axle = l.axle and p.side = l.side and p.life_number = l.life_number - 1 group by l.life_row`;
};

/** A code of `before` by place in the lives table. */
export async function earlierLives(asking: Asking, component: Component, lives: number): Promise<Uint8Array> {
  const found = await run(asking, earlierLivesStatement(component));
  const [row, code] = [numberColumn(found, 'life_row'), numberColumn(found, 'before')];
  const codes = new Uint8Array(lives);
  for (let at = 0; at < found.rows; at++) codes[row[at] as number] = code[at] as number;
  return codes;
}
