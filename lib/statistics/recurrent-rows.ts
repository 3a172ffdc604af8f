import { riskOrder } from './risk-order.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCategory, toCodes, toNumbers, type Category, type Codes, type SurvivalData } from './survival-data.ts';

/**
 * Subjects that can have the event again and again. Each row says that its subject was under observation on
 * (entry, exit] and had `event` events (0, 1, 2 …) at exit; a subject may have many rows, in any order.
 * - Without `entry` a subject is watched from 0 to its last exit, its rows following one another.
 * - A row with entry = exit adds events at that moment, within the time watched by the subject's other rows:
 *   one row a subject for its time and one an event for its events is a complete description.
 */
export interface RecurrentData extends Omit<SurvivalData, 'covariates' | 'strata'> {
  readonly subject: NonNullable<SurvivalData['group']>;
}

/** Stretches of observation, each ending with what happened at its exit; no two of a subject overlap. */
export interface RecurrentRows {
  readonly rows: number;
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly event: Uint8Array;
  readonly weight: Float64Array | null;
  readonly group: Category;
  readonly subject: Codes;
  readonly cluster: Codes | null;
}

/** An event count is held in a byte. */
const MOST_EVENTS = 255;

/**
 * Checks recurrent data and cuts it into stretches at the events.
 *
 * @throws StatisticsError naming the argument and row: exit < entry, rows of a subject that overlap, an
 * event while its subject is not watched, counts that are not whole, and what other survival data may not have.
 */
export function recurrentRows(data: RecurrentData): RecurrentRows {
  const count = data.exit.length;
  const exit = toNumbers('exit', data.exit, count);
  const event = toNumbers('event', data.event, count);
  const given = data.entry ? toNumbers('entry', data.entry, count) : null;
  const weight = data.weight ? toNumbers('weight', data.weight, count) : null;
  const subject = toCodes('subject', data.subject, count);
  const group = data.group ? toCategory('group', data.group, count) : { levels: ['all'], codes: new Int32Array(count) };
  const cluster = data.cluster ? toCodes('cluster', data.cluster, count) : null;
  checkValues(exit, event, given, weight);
  const order = riskOrder(exit, null, subject);
  const cut = new StretchCutter(exit, event, order.rows, given);
  for (let code = 0; code < subject.count; code++)
    cut.subject(order.start[code] as number, order.start[code + 1] as number);
  const from = cut.from.subarray(0, cut.rows);
  const pick = (codes: Int32Array): Int32Array => Int32Array.from(from, (row) => codes[row] as number);
  return {
    rows: cut.rows,
    entry: cut.entry.subarray(0, cut.rows),
    exit: cut.exit.subarray(0, cut.rows),
    event: cut.event.subarray(0, cut.rows),
    weight: weight && Float64Array.from(from, (row) => weight[row] as number),
    group: { levels: group.levels, codes: pick(group.codes) },
    subject: { count: subject.count, codes: pick(subject.codes) },
    cluster: cluster && { count: cluster.count, codes: pick(cluster.codes) },
  };
}

function checkValues(
  exit: Float64Array,
  event: Float64Array,
  entry: Float64Array | null,
  weight: Float64Array | null,
): void {
  for (let row = 0; row < exit.length; row++) {
    const events = event[row] as number;
    if (!(Number.isInteger(events) && events >= 0 && events <= MOST_EVENTS))
      throw new StatisticsError('event', `is ${events}, not a whole number from 0 to ${MOST_EVENTS}`, row);
    if ((exit[row] as number) < 0) throw new StatisticsError('exit', `is ${exit[row]}, below zero`, row);
    if (entry && (exit[row] as number) < (entry[row] as number))
      throw new StatisticsError('exit', `is ${exit[row]}, before its entry ${entry[row]}`, row);
    if (weight && (weight[row] as number) < 0)
      throw new StatisticsError('weight', `is ${weight[row]}, below zero`, row);
  }
}

class StretchCutter {
  rows = 0;
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly event: Uint8Array;
  /** The row that watched each stretch. */
  readonly from: Uint32Array;

  /** `order` holds rows by subject, then exit; `given` entries, or null where rows follow one another. */
  constructor(
    readonly exits: Float64Array,
    readonly events: Float64Array,
    readonly order: Uint32Array,
    readonly given: Float64Array | null,
  ) {
    this.entry = new Float64Array(exits.length);
    this.exit = new Float64Array(exits.length);
    this.event = new Uint8Array(exits.length);
    this.from = new Uint32Array(exits.length);
  }

  /** Rows at places start to end are one subject's. */
  subject(start: number, end: number): void {
    if (this.given) this.watchedRows(start, end, this.given);
    else this.followingRows(start, end);
  }

  followingRows(start: number, end: number): void {
    let before = 0;
    for (let k = start; k < end; k++) {
      const row = this.order[k] as number;
      const exit = this.exits[row] as number;
      if (exit > before) this.add(before, exit, row, this.events[row] as number);
      else if (before > 0) this.addEvents(row);
      else if ((this.events[row] as number) > 0)
        throw new StatisticsError('event', 'comes at 0, before its subject is watched', row);
      before = exit;
    }
  }

  watchedRows(start: number, end: number, given: Float64Array): void {
    const isMoment = (row: number): boolean => given[row] === this.exits[row];
    let moment = start;
    let before = -Infinity;
    for (let k = start; k < end; k++) {
      const row = this.order[k] as number;
      if (isMoment(row)) continue;
      let entry = given[row] as number;
      const exit = this.exits[row] as number;
      if (entry < before)
        throw new StatisticsError('entry', `is ${entry}, before its subject's row to ${before} has ended`, row);
      before = exit;
      // Moments come in order of time too: those of this stretch cut it or fall on its end.
      const ending: number[] = [];
      for (; moment < end && (this.exits[this.order[moment] as number] as number) <= exit; moment++) {
        const cut = this.order[moment] as number;
        if (!isMoment(cut)) continue;
        const at = this.exits[cut] as number;
        if (at === exit) ending.push(cut);
        else if (at > entry) {
          this.add(entry, at, row, this.events[cut] as number);
          entry = at;
        } else if (at === entry && this.rows > 0 && this.from[this.rows - 1] === row) this.addEvents(cut);
        else this.refuseMoment(cut);
      }
      this.add(entry, exit, row, this.events[row] as number);
      for (const cut of ending) this.addEvents(cut);
    }
    for (; moment < end; moment++) this.refuseMoment(this.order[moment] as number);
  }

  add(entry: number, exit: number, row: number, events: number): void {
    this.entry[this.rows] = entry;
    this.exit[this.rows] = exit;
    this.event[this.rows] = events;
    this.from[this.rows++] = row;
  }

  /** More events at the end of the stretch last added. */
  addEvents(row: number): void {
    const total = (this.event[this.rows - 1] as number) + (this.events[row] as number);
    if (total > MOST_EVENTS) throw new StatisticsError('event', `makes ${total} at one time, over ${MOST_EVENTS}`, row);
    this.event[this.rows - 1] = total;
  }

  /** A moment outside the watched time matters only if something happened then. */
  refuseMoment(row: number): void {
    if ((this.events[row] as number) > 0)
      throw new StatisticsError('event', `comes at ${this.exits[row]}, while its subject is not watched`, row);
  }
}
