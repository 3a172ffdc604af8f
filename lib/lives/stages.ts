import { numberColumn, type Engine } from '../engine/engine.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';

/**
 * A table that is made of some wheel ends, or some units, after the other, so that what the engine
 * holds to make it does not grow with the fleet: memory that a tab's engine once took stays taken.
 */
export interface TableInPieces {
  readonly table: string;
  /** Pieces by wheel end come in their order. */
  readonly by: 'wheel_end' | 'unit_id';
  /** Its rows of a piece: a condition on the column that it is cut by. */
  readonly rows: (piece: Statement) => Statement;
}

export type Stage = Statement | TableInPieces;

/** Some hundred thousand lives; some hundred thousand readings. */
const [wheelEndsAtATime, unitsAtATime] = [40_000, 15_000];

const conditions = {
  wheel_end: (nth: number) =>
    sql`wheel_end between ${nth * wheelEndsAtATime + 1}::bigint and ${(nth + 1) * wheelEndsAtATime}::bigint`,
  unit_id: (nth: number, of: number) => sql`hash(unit_id) % ${of}::ubigint = ${nth}::ubigint`,
};

const countPieces = {
  wheel_end: sql`select ceil(count(*) / ${wheelEndsAtATime}) as pieces from work_wheel_ends`,
  unit_id: sql`select ceil(count(*) / ${unitsAtATime}) as pieces from work_unit_miles`,
};

function piece({ table, by, rows }: TableInPieces, nth: number, of: number): Statement {
  const made = rows(conditions[by](nth, of));
  const name = identifier(table);
  return nth === 0 ? sql`create or replace table ${name} as ${made}` : sql`insert into ${name} ${made}`;
}

/** The statements of a stage, as they are of two pieces. */
export const statementsOf = (stage: Stage): readonly Statement[] =>
  'table' in stage ? [piece(stage, 0, 2), piece(stage, 1, 2)] : [stage];

async function runInPieces(engine: Engine, stage: TableInPieces, signal?: AbortSignal): Promise<void> {
  const counted = await engine.query(countPieces[stage.by], signal);
  const pieces = Math.max(1, numberColumn(counted, 'pieces')[0] ?? 0);
  for (let nth = 0; nth < pieces; nth++) await engine.run(piece(stage, nth, pieces), signal);
}

/** @param told the share of the stages that are done, after each */
export async function runAll(
  engine: Engine,
  stages: readonly Stage[],
  signal?: AbortSignal,
  told?: (share: number) => void,
): Promise<void> {
  for (const [before, stage] of stages.entries()) {
    signal?.throwIfAborted();
    await ('table' in stage ? runInPieces(engine, stage, signal) : engine.run(stage, signal));
    told?.((before + 1) / stages.length);
  }
}
