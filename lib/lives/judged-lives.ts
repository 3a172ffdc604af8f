import { deviationCodes, deviationColumn } from '../../shared/deviations.ts';
import { numberColumn, textColumn, type Engine, type ResultTable } from '../engine/engine.ts';
import { conflictsStatement } from './life-pages-conflicts.ts';
import {
  changedStatement,
  conflictCountsStatement,
  dropJudgements,
  judgedStatement,
  judgements,
  keepJudgements,
  versionsStatement,
  type Judgement,
} from './life-pages-judged.ts';

export type JudgedCounts = Readonly<Record<Judgement, number>>;

/** How the seal lives that a job began are judged under the procedure. */
export interface JudgedLives {
  readonly lives: number;
  /** By deviation code. */
  readonly counts: Readonly<Record<string, JudgedCounts>>;
  /** Lives judged by each version, in the versions' order, and those begun before the first was valid. */
  readonly byVersion: readonly { readonly version: number | null; readonly lives: number }[];
  readonly conflicts: readonly { readonly code: string; readonly lives: number }[];
}

const first = (result: ResultTable, name: string): number => numberColumn(result, name)[0] ?? 0;

function countsIn(result: ResultTable): Record<string, JudgedCounts> {
  return Object.fromEntries(
    deviationCodes.map((code) => [
      code,
      Object.fromEntries(judgements.map((word) => [word, first(result, `${deviationColumn(code)} ${word}`)])) as Record<
        Judgement,
        number
      >,
    ]),
  );
}

/** Counts over `lives_seal`, which must have been made. */
export async function judgedLives(engine: Engine, signal?: AbortSignal): Promise<JudgedLives> {
  const judged = await engine.query(judgedStatement, signal);
  const versions = await engine.query(versionsStatement, signal);
  const conflicts = await engine.query(conflictCountsStatement, signal);
  const lives = numberColumn(versions, 'lives');
  const codes = textColumn(conflicts, 'code');
  return {
    lives: first(judged, 'lives'),
    counts: countsIn(judged),
    byVersion: [...numberColumn(versions, 'version')].map((version, row) => ({
      version: Number.isNaN(version) ? null : version,
      lives: lives[row] ?? 0,
    })),
    conflicts: [...numberColumn(conflicts, 'lives')].map((count, row) => ({ code: codes[row] ?? '', lives: count })),
  };
}

/** What a rebuild under other versions of the procedure changed. */
export interface JudgementsChanged {
  readonly before: JudgedLives;
  readonly after: JudgedLives;
  /** Lives of the same installing job that are judged otherwise, by deviation code. */
  readonly changed: Readonly<Record<string, number>>;
  /** Those judged otherwise in anything. */
  readonly lives: number;
}

/** Judgements of the lives as they stand, then what `rebuild` made of them. */
export async function judgementsChanged(
  engine: Engine,
  rebuild: () => Promise<void>,
  signal?: AbortSignal,
): Promise<JudgementsChanged> {
  const before = await judgedLives(engine, signal);
  await engine.run(keepJudgements, signal);
  try {
    await rebuild();
    const after = await judgedLives(engine, signal);
    const result = await engine.query(changedStatement, signal);
    const changed = Object.fromEntries(deviationCodes.map((code) => [code, first(result, deviationColumn(code))]));
    return { before, after, changed, lives: first(result, 'lives') };
  } finally {
    await engine.run(dropJudgements);
  }
}

/** One life whose evidence of a deviation contradicts itself. */
export interface Conflict {
  readonly lifeId: string;
  readonly unitId: string;
  readonly position: string;
  readonly serviceId: string;
  readonly day: string;
  readonly code: string;
  /** What each kind of evidence says; null = nothing. */
  readonly says: Readonly<Record<'measured' | 'recorded' | 'step', 'yes' | 'no' | null>>;
  readonly value: number | null;
  readonly minimum: number | null;
  readonly maximum: number | null;
  readonly listed: boolean;
  readonly stated: string | null;
}

export async function conflicts(
  engine: Engine,
  offset: number,
  limit: number,
  signal?: AbortSignal,
): Promise<Conflict[]> {
  const result = await engine.query(conflictsStatement(offset, limit), signal);
  const text = (name: string, row: number) => textColumn(result, name)[row] ?? null;
  const said = (name: string, row: number) => text(name, row) as 'yes' | 'no' | null;
  const number = (name: string, row: number) => {
    const value = numberColumn(result, name)[row];
    return value === undefined || Number.isNaN(value) ? null : value;
  };
  return Array.from({ length: result.rows }, (_, row) => ({
    ...{
      lifeId: text('life_id', row) ?? '',
      unitId: text('unit_id', row) ?? '',
      position: text('position', row) ?? '',
    },
    ...{ serviceId: text('service_id', row) ?? '', day: text('day', row) ?? '', code: text('code', row) ?? '' },
    says: { measured: said('measured', row), recorded: said('recorded', row), step: said('step', row) },
    ...{ value: number('value', row), minimum: number('minimum', row), maximum: number('maximum', row) },
    ...{ listed: number('listed', row) === 1, stated: text('stated', row) },
  }));
}
