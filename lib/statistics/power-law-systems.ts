import { StatisticsError } from './statistics-error.ts';
import { toCategory, toNumbers, type CategoryColumn, type NumberColumn } from './survival-data.ts';

/**
 * Repairable systems by row: event 1 is a failure at age `exit` (the system is repaired and goes
 * on), event 0 the end of its observation. A system with no such row is taken as stopped at its
 * last failure. `entry` is the age from which a system was watched: one value for all its rows, or
 * rows that follow on from each other.
 */
export interface PowerLawData {
  readonly exit: NumberColumn;
  readonly event: NumberColumn;
  readonly entry?: NumberColumn;
  /** Which system a row is of; one system when left out. */
  readonly unit?: CategoryColumn;
}

/** Systems after checking: ages watched from and to, and all failure ages pooled, in units of `longest`. */
export interface Systems {
  readonly start: Float64Array;
  readonly end: Float64Array;
  /** Whether the system was stopped at its last failure. */
  readonly stoppedAtFailure: readonly boolean[];
  readonly failure: Float64Array;
  /** The system of each failure. */
  readonly system: Int32Array;
  readonly longest: number;
}

export function toSystems(data: PowerLawData): Systems {
  const rows = data.exit.length;
  if (rows === 0) throw new StatisticsError('exit', 'has no rows');
  const exit = toNumbers('exit', data.exit, rows);
  const event = toNumbers('event', data.event, rows);
  const entry = data.entry ? toNumbers('entry', data.entry, rows) : new Float64Array(rows);
  const unit = data.unit ? toCategory('unit', data.unit, rows) : { levels: ['1'], codes: new Int32Array(rows) };
  for (let row = 0; row < rows; row++) {
    const flag = event[row] as number;
    if (flag !== 0 && flag !== 1) throw new StatisticsError('event', `${flag} is neither 0 nor 1`, row);
    if ((entry[row] as number) < 0) throw new StatisticsError('entry', 'is negative', row);
    if (!((exit[row] as number) > (entry[row] as number)))
      throw new StatisticsError('exit', `${exit[row]} is not after entry ${entry[row]}`, row);
  }
  const ofSystem: number[][] = unit.levels.map(() => []);
  for (let row = 0; row < rows; row++) ofSystem[unit.codes[row] as number]?.push(row);
  const longest = exit.reduce((most, value) => Math.max(most, value), 0);
  const systems = ofSystem.filter((list) => list.length > 0).map((list) => readSystem(list, exit, event, entry));
  return {
    start: Float64Array.from(systems, ({ start }) => start / longest),
    end: Float64Array.from(systems, ({ end }) => end / longest),
    stoppedAtFailure: systems.map(({ stopped }) => stopped),
    failure: Float64Array.from(systems.flatMap(({ failures }) => failures.map((age) => age / longest))),
    system: Int32Array.from(systems.flatMap(({ failures }, index) => failures.map(() => index))),
    longest,
  };
}

function readSystem(list: number[], exit: Float64Array, event: Float64Array, entry: Float64Array) {
  const at = (values: Float64Array, row: number) => values[row] as number;
  list.sort((a, b) => at(exit, a) - at(exit, b) || at(event, b) - at(event, a));
  const start = list.reduce((least, row) => Math.min(least, at(entry, row)), Infinity);
  list.forEach((row, place) => {
    const before = place === 0 ? start : at(exit, list[place - 1] as number);
    if (at(entry, row) !== start && at(entry, row) !== before)
      throw new StatisticsError('entry', `${at(entry, row)} leaves a gap in the watch of its system`, row);
    if (at(event, row) === 0 && place < list.length - 1 && at(exit, list[place + 1] as number) > at(exit, row)) {
      const next = list[place + 1] as number;
      // An unbroken chain of rows may cut a watch anywhere; otherwise a row after the end is a fault.
      if (at(entry, next) !== at(exit, row)) throw new StatisticsError('exit', 'is after the end of its system', next);
    }
  });
  const last = list[list.length - 1] as number;
  const failures = list.filter((row) => event[row] === 1).map((row) => at(exit, row));
  return { start, end: at(exit, last), stopped: event[last] === 1, failures };
}
