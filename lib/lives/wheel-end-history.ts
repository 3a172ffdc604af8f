import type { HistoryEvent, WheelEndHistory } from '../../shared/life-history.ts';
import type { Component, LifeState } from '../../shared/vocabulary.ts';
import { numberColumn, textColumn, type Engine, type ResultTable } from '../engine/engine.ts';
import {
  unitEventsStatement,
  unitLivesStatement,
  unitSpanStatement,
  unitWaitsStatement,
} from './life-pages-history.ts';

function rowsOf<Row>(result: ResultTable, read: (row: number) => Row): Row[] {
  return Array.from({ length: result.rows }, (_, row) => read(row));
}

const known = (value: number | undefined): number | null => (value === undefined || Number.isNaN(value) ? null : value);

type Placed<Value> = Value & { readonly wheelEnd: number };

function livesIn(result: ResultTable) {
  const text = (name: string, row: number) => textColumn(result, name)[row] ?? null;
  const number = (name: string, row: number) => known(numberColumn(result, name)[row]);
  return rowsOf(result, (row) => ({
    ...{ wheelEnd: number('wheel_end', row) ?? 0, axle: number('axle', row) ?? 0 },
    ...{ side: text('side', row) ?? '', role: text('role', row), lifeId: text('life_id', row) ?? '' },
    ...{ state: text('state', row) as LifeState, mode: text('mode', row) },
    ...{ fromMiles: number('observed_from_miles', row) ?? 0, toMiles: number('observed_to_miles', row) ?? 0 },
    installMiles: number('install_known', row) === 1 ? number('install_miles', row) : null,
    inferredEnd: ['end', 'both'].includes(text('inferred', row) ?? 'no'),
  }));
}

function eventsIn(result: ResultTable): Placed<HistoryEvent>[] {
  const text = (name: string, row: number) => textColumn(result, name)[row] ?? null;
  const number = (name: string, row: number) => known(numberColumn(result, name)[row]);
  return rowsOf(result, (row) => ({
    ...{ wheelEnd: number('wheel_end', row) ?? 0, table: text('table', row) as HistoryEvent['table'] },
    ...{ id: text('id', row) ?? '', miles: number('miles', row) ?? 0, day: text('day', row) ?? '' },
    ...{ quality: text('quality', row) ?? 'measured', what: text('what', row), why: text('why', row) },
    ...{ leak: number('leak', row), counts: number('counts', row) === 1 },
  }));
}

/** Every wheel end of a vehicle that has a life of the component, front to rear, left before right. */
export async function unitHistory(
  engine: Engine,
  component: Component,
  unitId: string,
  signal?: AbortSignal,
): Promise<WheelEndHistory[]> {
  const lives = livesIn(await engine.query(unitLivesStatement(component, unitId), signal));
  const waits = await engine.query(unitWaitsStatement(component, unitId), signal);
  const events = eventsIn(await engine.query(unitEventsStatement(component, unitId), signal));
  const span = await engine.query(unitSpanStatement(unitId), signal);
  const waited = rowsOf(waits, (row) => ({
    wheelEnd: numberColumn(waits, 'wheel_end')[row] ?? 0,
    fromMiles: numberColumn(waits, 'from_miles')[row] ?? 0,
    toMiles: numberColumn(waits, 'to_miles')[row] ?? 0,
  }));
  return [...new Set(lives.map(({ wheelEnd }) => wheelEnd))].map((wheelEnd) => {
    const own = <Value extends { wheelEnd: number }>(values: readonly Value[]) =>
      values.filter((value) => value.wheelEnd === wheelEnd);
    const [first] = own(lives);
    return {
      ...{ unitId, axle: first?.axle ?? 0, side: first?.side ?? '', role: first?.role ?? null },
      watchedFrom: known(numberColumn(span, 'from_miles')[0]) ?? 0,
      watchedTo: known(numberColumn(span, 'to_miles')[0]) ?? 0,
      ...{ lives: own(lives), waits: own(waited), events: own(events) },
    };
  });
}
