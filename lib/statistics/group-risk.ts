import type { CheckedLives } from './checked-lives.ts';
import type { RiskOrder } from './risk-order.ts';

/** 2·group + event of each row in the order of a sweep. */
export type PackedCodes = Uint8Array | Uint32Array;

/** 2·group + event of each row, as narrow as it goes: a byte of it travels with the row when rows are put in order. */
export function packCodes(lives: CheckedLives, event: Uint8Array): PackedCodes {
  const codes = lives.group.codes;
  const packed = lives.group.levels.length <= 128 ? new Uint8Array(lives.rows) : new Uint32Array(lives.rows);
  for (let row = 0; row < packed.length; row++) packed[row] = 2 * (codes[row] as number) + (event[row] as number);
  return packed;
}

/** Packed codes in the order of the sweeps, gathered once where they are too wide to have come along as marks. */
export function codesInOrder({ rows, marks }: RiskOrder, packed: PackedCodes): PackedCodes {
  if (packed instanceof Uint8Array) return marks;
  const inOrder = new Uint32Array(packed.length);
  for (let k = 0; k < inOrder.length; k++) inOrder[k] = packed[rows[k] as number] as number;
  return inOrder;
}

/** The weight at risk of each group, held with compensation so that fractional weights leave nothing behind. */
export class GroupRisk {
  /** While an instance lives the machine knows the class's layout, and sweeps compiled for it need not be compiled again. */
  static readonly layout = new GroupRisk(0);
  /** Without weights this may also be counted up and down directly. */
  readonly atRisk: Float64Array;
  readonly rest: Float64Array;
  readonly rows: Int32Array;
  /** Rows of the part at each packed code, those that enter late among them. */
  readonly tally: Int32Array;

  constructor(groups: number) {
    this.atRisk = new Float64Array(groups);
    this.rest = new Float64Array(groups);
    this.rows = new Int32Array(groups);
    this.tally = new Int32Array(2 * groups);
  }

  /** All rows of a part that are at risk from the start. */
  begin(order: RiskOrder, part: number, inOrder: PackedCodes, lives: CheckedLives): void {
    const { weight } = lives;
    this.atRisk.fill(0);
    this.rest.fill(0);
    this.rows.fill(0);
    const end = order.start[part + 1] as number;
    const { rows, tally } = this;
    tally.fill(0);
    tallyCodes(inOrder, order.start[part] as number, end, tally);
    if (weight === null) {
      for (let group = 0; group < rows.length; group++)
        rows[group] = (tally[2 * group] as number) + (tally[2 * group + 1] as number);
      this.atRisk.set(rows);
    } else
      for (let k = order.start[part] as number; k < end; k++)
        this.enter((inOrder[k] as number) >>> 1, weight[order.rows[k] as number] as number);
    const lateEnd = order.lateStart[part + 1] as number;
    for (let late = order.lateStart[part] as number; late < lateEnd; late++) {
      const row = order.lateRows[late] as number;
      this.leave(lives.group.codes[row] as number, weight === null ? 1 : (weight[row] as number));
    }
  }

  enter(group: number, weight: number): void {
    if (weight === 0) return;
    this.rows[group] = (this.rows[group] as number) + 1;
    this.add(group, weight);
  }

  leave(group: number, weight: number): void {
    if (weight === 0) return;
    const rows = (this.rows[group] as number) - 1;
    this.rows[group] = rows;
    if (rows > 0) this.add(group, -weight);
    else this.atRisk[group] = this.rest[group] = 0;
  }

  /** Knuth's two-sum, what it loses carried into the next. */
  add(group: number, weight: number): void {
    const old = this.atRisk[group] as number;
    const step = weight + (this.rest[group] as number);
    const next = old + step;
    const moved = next - old;
    this.rest[group] = old - (next - moved) + (step - moved);
    this.atRisk[group] = next;
  }
}

function tallyCodes(codes: PackedCodes, from: number, end: number, tally: Int32Array): void {
  for (let k = from; k < end; k++) {
    const code = codes[k] as number;
    tally[code] = (tally[code] as number) + 1;
  }
}
