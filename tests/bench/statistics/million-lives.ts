import { closeSync, openSync, readSync, writeSync } from 'node:fs';
import { createRandom, type Random } from '../../../lib/statistics/index.ts';

export const LIVES = 1_000_000;
export const VEHICLES = 100_000;
export const GROUPS = 12;
export const BINARY = 12;
const SEED = 20260711;

const binaryNames = Array.from({ length: BINARY }, (_, j) => `x${j + 1}`);

/** One column after another in the file, each LIVES numbers of eight bytes; R reads the same order. */
export const columnNames = [
  'exit',
  'entry',
  'event',
  'cause',
  'group',
  'vehicle',
  ...binaryNames,
  'load',
  'lower',
  'upper',
] as const;

/** Log hazard ratios of the yes/no covariates; the first half are the vehicle's, the rest each wheel end's. */
const EFFECTS = [0.6, 0.3, 0, -0.2, 0.1, 0, 0.8, 0.4, 0.2, 0, -0.3, 0.15];
const SHARES = [0.1, 0.3, 0.5, 0.2, 0.4, 0.05, 0.08, 0.25, 0.5, 0.15, 0.35, 0.02];
const [SHAPE, SCALE_MILES] = [1.4, 420_000];
const FRAILTY_VARIANCE = 0.3;
const INSPECTED_EVERY_MILES = 25_000;

/**
 * Seals of a large fleet, the same every time: Weibull lives with a gamma frailty shared within the vehicle, ends in
 * whole miles (so that many tie), one life in five met late and only if it was still running then, most still running
 * when the watch ends. `lower` and `upper` are the inspections between which the end fell.
 */
export function writeMillionLives(file: string): void {
  const random = createRandom(SEED);
  const columns = new Map(columnNames.map((name) => [name, new Float64Array(LIVES)]));
  const vehicles = Array.from({ length: VEHICLES }, () => drawVehicle(random));
  for (let row = 0; row < LIVES; row++) {
    const vehicle = row < VEHICLES ? row : random.below(VEHICLES);
    const life = drawLife(random, vehicles[vehicle] as Vehicle);
    const values = { ...life, vehicle };
    for (const [name, column] of columns)
      column[row] = name.startsWith('x') ? (life.x[Number(name.slice(1)) - 1] as number) : values[name as 'exit'];
  }
  const target = openSync(file, 'w');
  for (const column of columns.values()) writeSync(target, column);
  closeSync(target);
}

interface Vehicle {
  readonly frailty: number;
  readonly x: readonly number[];
}

const drawYesNo = (random: Random, from: number, to: number): number[] =>
  SHARES.slice(from, to).map((share) => (random.uniform() < share ? 1 : 0));

const drawVehicle = (random: Random): Vehicle => ({
  frailty: FRAILTY_VARIANCE * random.gamma(1 / FRAILTY_VARIANCE),
  x: drawYesNo(random, 0, BINARY / 2),
});

function drawLife(random: Random, vehicle: Vehicle) {
  const late = random.uniform() < 0.2;
  for (;;) {
    const x = [...vehicle.x, ...drawYesNo(random, BINARY / 2, BINARY)];
    const group = random.below(GROUPS);
    const load = random.normal();
    const logRatio = x.reduce((sum, value, j) => sum + value * (EFFECTS[j] as number), 0.04 * group + 0.2 * load);
    const hazard = vehicle.frailty * Math.exp(logRatio);
    const life = Math.ceil(SCALE_MILES * (random.exponential() / hazard) ** (1 / SHAPE));
    const renewed = Math.ceil(600_000 * random.exponential());
    const entry = late ? 1 + random.below(150_000) : 0;
    const watched = entry + 1 + random.below(250_000);
    const exit = Math.min(life, renewed, watched);
    if (exit <= entry) continue;
    const cause = exit === life ? 1 : exit === renewed ? 2 : 0;
    const event = cause === 1 ? 1 : 0;
    return { exit, entry, event, cause, group, x, load, ...inspections(random, exit, event) };
  }
}

/** Found failed at the first inspection after the end, running at the one before; still running: no upper end. */
function inspections(random: Random, exit: number, event: number) {
  const first = 1 + random.below(INSPECTED_EVERY_MILES);
  const done = Math.ceil((exit - first) / INSPECTED_EVERY_MILES);
  const lower = done <= 0 ? 0 : first + (done - 1) * INSPECTED_EVERY_MILES;
  return { lower, upper: event === 1 ? first + Math.max(0, done) * INSPECTED_EVERY_MILES : Infinity };
}

export interface MillionLives {
  readonly exit: Float64Array;
  readonly entry: Float64Array;
  readonly event: Float64Array;
  readonly cause: Float64Array;
  readonly group: { readonly levels: readonly string[]; readonly codes: Int32Array };
  readonly vehicle: Int32Array;
  readonly binary: Readonly<Record<string, Float64Array>>;
  readonly load: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

/** Reads columns straight into their arrays, so that no copy blurs the memory measured later. */
export function readMillionLives(file: string): MillionLives {
  const source = openSync(file, 'r');
  const column = (name: string): Float64Array => {
    const values = new Float64Array(LIVES);
    readSync(source, values, 0, values.byteLength, columnNames.indexOf(name) * values.byteLength);
    return values;
  };
  const lives = {
    ...{ exit: column('exit'), entry: column('entry'), event: column('event'), cause: column('cause') },
    group: {
      levels: Array.from({ length: GROUPS }, (_, code) => String(code)),
      codes: Int32Array.from(column('group')),
    },
    vehicle: Int32Array.from(column('vehicle')),
    binary: Object.fromEntries(binaryNames.map((name) => [name, column(name)])),
    ...{ load: column('load'), lower: column('lower'), upper: column('upper') },
  };
  closeSync(source);
  return lives;
}
