import type { Component, FailureMode, LifeState } from '../../shared/vocabulary.ts';
import type { Engine } from '../engine/engine.ts';
import type { Statement } from '../engine/statement.ts';
import type { LifeFacts, NextRenewal } from './life-facts.ts';
import {
  failureStatement,
  lifeFactsStatement,
  mateStatement,
  renewalStatement,
  unitEndStatement,
} from './life-pages-facts.ts';

/** Cells of the one row of an answer, by column; null where not known. */
interface Cells {
  readonly found: boolean;
  readonly text: (name: string) => string | null;
  readonly number: (name: string) => number | null;
  readonly yes: (name: string) => boolean;
}

async function cellsOf(engine: Engine, statement: Statement, signal: AbortSignal | undefined): Promise<Cells> {
  const { columns, rows } = await engine.query(statement, signal);
  const number = (name: string) => {
    const value = columns[name]?.[0];
    return typeof value === 'number' && !Number.isNaN(value) ? value : null;
  };
  const text = (name: string) => {
    const value = columns[name]?.[0];
    return typeof value === 'string' ? value : null;
  };
  return { found: rows > 0, text, number, yes: (name) => number(name) === 1 };
}

/** Everything that decided how a life began and ended; null where there is none of that id. */
export async function readLifeFacts(
  engine: Engine,
  component: Component,
  lifeId: string,
  signal?: AbortSignal,
): Promise<LifeFacts | null> {
  const ask = (statement: Statement) => cellsOf(engine, statement, signal);
  const cells = await ask(lifeFactsStatement(component, lifeId));
  if (!cells.found) return null;
  const { text, number } = cells;
  const [unitId, axle, side] = [text('unit_id') ?? '', number('axle') ?? 0, text('side') ?? ''];
  const [wheelEnd, slot] = [number('wheel_end') ?? 0, number('slot') ?? 0];
  const unit = await ask(unitEndStatement(unitId, axle, side));
  return {
    ...{ component, lifeId, unitId, axle, side, role: text('role'), wheelEnd, slot },
    ...{ state: text('state') as LifeState, mode: text('mode') as FailureMode | null },
    ...{ installKind: text('install_kind') ?? 'unknown', inferred: text('inferred') ?? 'no' },
    ...{ mileageQuality: text('mileage_quality') ?? 'measured', mateLifeId: text('mate_life_id') },
    ...{ startMiles: number('start_miles'), startDate: text('start_date'), startServiceId: text('start_service_id') },
    ...{ startQuality: text('start_quality'), endQuality: text('end_quality') },
    ...{ beginMiles: number('begin_miles') ?? 0, endMiles: number('end_miles') ?? 0 },
    ...{ entryMiles: number('entry_miles'), exitMiles: number('exit_miles') },
    exposureMiles: number('exposure_miles') ?? 0,
    failure: await failureIn(cells, (id) => ask(failureStatement(component, wheelEnd, slot, id))),
    next: await nextIn(
      cells,
      (id) => ask(renewalStatement(component, wheelEnd, id)),
      (id) => ask(mateStatement(component, wheelEnd, id)),
    ),
    left: unit.yes('has_left') ? { date: unit.text('out_date'), rowsAfter: unit.number('rows_after') ?? 0 } : null,
    ...{ lastDay: unit.text('last_day') ?? '', knownToTheEnd: unit.yes('known_to_the_end') },
    ...{ observedFrom: text('observed_from') ?? '', observedTo: text('observed_to') ?? '' },
  };
}

type AskCells = (id: string) => Promise<Cells>;

async function failureIn({ text, number }: Cells, ask: AskCells): Promise<LifeFacts['failure']> {
  const failureId = text('failure_id');
  if (failureId === null) return null;
  const more = await ask(failureId);
  return {
    ...{ failureId, mode: text('failure_mode') ?? '', date: text('failure_date') ?? '' },
    ...{
      miles: number('found_miles') ?? 0,
      reports: more.number('reports') ?? 1,
      repairedBy: more.text('repaired_by'),
    },
  };
}

async function nextIn({ text, number, yes }: Cells, askRow: AskCells, askMate: AskCells): Promise<NextRenewal | null> {
  const serviceId = text('next_service_id');
  if (serviceId === null) return null;
  const row = await askRow(serviceId);
  const [byRow, byOrder] = [yes('mate_failed_by_row'), yes('mate_failed_by_order')];
  const mate = byRow || byOrder ? await askMate(serviceId) : null;
  const named = (cells: Cells | null, name: string) => cells?.text(name) ?? '';
  const count = (cells: Cells | null, name: string) => cells?.number(name) ?? 0;
  return {
    ...{ serviceId, date: text('next_date') ?? '', miles: number('next_miles') ?? 0, reason: text('next_reason') },
    ...{ deep: yes('next_deep'), withSeal: yes('next_with_seal'), hubBuild: row.text('hub_build') },
    replaced: (row.text('replaced') ?? '').split(';').filter((part) => part !== ''),
    state: text('next_state') as LifeState,
    other: yes('other_failed')
      ? {
          failureId: named(row, 'other_failure_id'),
          mode: named(row, 'other_mode'),
          count: count(row, 'other_failures'),
        }
      : null,
    mateFailure: byRow ? { failureId: named(mate, 'mate_failure_id'), count: count(mate, 'mate_failures') } : null,
    mateOrder: byOrder
      ? {
          serviceId: named(mate, 'mate_service_id'),
          reason: named(mate, 'mate_reason'),
          count: count(mate, 'mate_orders'),
        }
      : null,
  };
}
