import type { Component, FailureMode, lifeStates } from '../../shared/vocabulary.ts';
import type { ResultTable } from '../engine/engine.ts';

export type LifeState = (typeof lifeStates)[number];

/** The renewal that ended a life, or would have, had no failure ended it before. */
export interface NextRenewal {
  readonly serviceId: string;
  readonly date: string;
  readonly miles: number;
  readonly reason: string | null;
  /** Bearings or the hub were replaced with it. */
  readonly deep: boolean;
  readonly withSeal: boolean;
  readonly replaced: readonly string[];
  readonly hubBuild: string | null;
  /** How it ends the life before it where that has no failure of its own. */
  readonly state: LifeState;
  /** A failure of another component that it repaired, and how many there are. */
  readonly other: { readonly failureId: string; readonly mode: string; readonly count: number } | null;
  /** A failure of the wheel end across the axle that the same job repaired. */
  readonly mateFailure: { readonly failureId: string; readonly count: number } | null;
  /** A service of the wheel end across the axle on the same job whose reason says that end failed. */
  readonly mateOrder: { readonly serviceId: string; readonly reason: string; readonly count: number } | null;
}

/** Everything that decided how a life began and ended; miles are odometer values. */
export interface LifeFacts {
  readonly component: Component;
  readonly lifeId: string;
  readonly unitId: string;
  readonly axle: number;
  readonly side: string;
  readonly role: string | null;
  readonly wheelEnd: number;
  /** 0 for the first part of the wheel end; the k-th renewal begins slot k. */
  readonly slot: number;
  readonly state: LifeState;
  readonly mode: FailureMode | null;
  readonly installKind: string;
  readonly inferred: string;
  readonly mileageQuality: string;
  readonly mateLifeId: string | null;
  readonly startMiles: number | null;
  readonly startDate: string | null;
  readonly startServiceId: string | null;
  readonly startQuality: string | null;
  readonly endQuality: string | null;
  /** From here on it was watched. */
  readonly beginMiles: number;
  readonly endMiles: number;
  /** Ages. */
  readonly entryMiles: number | null;
  readonly exitMiles: number | null;
  readonly exposureMiles: number;
  /** The component's failure that ended it, and how many rows report it. */
  readonly failure: {
    readonly failureId: string;
    readonly mode: string;
    readonly date: string;
    readonly miles: number;
    readonly reports: number;
    readonly repairedBy: string | null;
  } | null;
  readonly next: NextRenewal | null;
  readonly left: { readonly date: string | null; readonly rowsAfter: number } | null;
  /** The unit's last known day, and whether it lies before the window's end. */
  readonly lastDay: string;
  readonly knownToTheEnd: boolean;
  readonly observedFrom: string;
  readonly observedTo: string;
}

/** Cells of the one row of a result, by column; null where not known. */
function cellsOf({ columns }: ResultTable) {
  const cell = (name: string) => columns[name]?.[0] ?? null;
  const text = (name: string) => (typeof cell(name) === 'string' ? (cell(name) as string) : null);
  const number = (name: string) => {
    const value = cell(name);
    return typeof value === 'number' && !Number.isNaN(value) ? value : null;
  };
  return { text, number, yes: (name: string) => number(name) === 1 };
}

type Cells = ReturnType<typeof cellsOf>;

/** Reads the row of `lifeFactsStatement`; null where there is no such life. */
export function readLifeFacts(component: Component, result: ResultTable): LifeFacts | null {
  if (result.rows === 0) return null;
  const cells = cellsOf(result);
  const { text, number, yes } = cells;
  return {
    component,
    ...{ lifeId: text('life_id') ?? '', unitId: text('unit_id') ?? '', axle: number('axle') ?? 0 },
    ...{ side: text('side') ?? '', role: text('role'), wheelEnd: number('wheel_end') ?? 0, slot: number('slot') ?? 0 },
    ...{ state: text('state') as LifeState, mode: text('mode') as FailureMode | null },
    ...{ installKind: text('install_kind') ?? 'unknown', inferred: text('inferred') ?? 'no' },
    ...{ mileageQuality: text('mileage_quality') ?? 'measured', mateLifeId: text('mate_life_id') },
    ...{ startMiles: number('start_miles'), startDate: text('start_date'), startServiceId: text('start_service_id') },
    ...{ startQuality: text('start_quality'), endQuality: text('end_quality') },
    ...{ beginMiles: number('begin_miles') ?? 0, endMiles: number('end_miles') ?? 0 },
    ...{ entryMiles: number('entry_miles'), exitMiles: number('exit_miles') },
    exposureMiles: number('exposure_miles') ?? 0,
    failure: failureIn(cells),
    next: nextIn(cells),
    left: yes('has_left') ? { date: text('out_date'), rowsAfter: number('rows_after') ?? 0 } : null,
    ...{ lastDay: text('last_day') ?? '', knownToTheEnd: yes('known_to_the_end') },
    ...{ observedFrom: text('observed_from') ?? '', observedTo: text('observed_to') ?? '' },
  };
}

function failureIn({ text, number }: Cells): LifeFacts['failure'] {
  const failureId = text('failure_id');
  if (failureId === null) return null;
  return {
    ...{ failureId, mode: text('failure_mode') ?? '', date: text('failure_date') ?? '' },
    ...{ miles: number('found_miles') ?? 0, reports: number('reports') ?? 1, repairedBy: text('repaired_by') },
  };
}

function nextIn({ text, number, yes }: Cells): NextRenewal | null {
  const serviceId = text('next_service_id');
  if (serviceId === null) return null;
  return {
    ...{ serviceId, date: text('next_date') ?? '', miles: number('next_miles') ?? 0, reason: text('next_reason') },
    ...{ deep: yes('next_deep'), withSeal: yes('next_with_seal'), hubBuild: text('next_hub_build') },
    replaced: (text('next_replaced') ?? '').split(';').filter((part) => part !== ''),
    state: text('next_state') as LifeState,
    other: yes('other_failed')
      ? {
          ...{ failureId: text('other_failure_id') ?? '', mode: text('other_mode') ?? '' },
          count: number('other_failures') ?? 0,
        }
      : null,
    mateFailure: yes('mate_failed_by_row')
      ? { failureId: text('mate_failure_id') ?? '', count: number('mate_failures') ?? 0 }
      : null,
    mateOrder: yes('mate_failed_by_order')
      ? {
          ...{ serviceId: text('mate_service_id') ?? '', reason: text('mate_reason') ?? '' },
          count: number('mate_orders') ?? 0,
        }
      : null,
  };
}
