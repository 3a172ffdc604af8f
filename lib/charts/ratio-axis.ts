/** A stretch of shown values laid out over an axis from 0 to 1. */
export interface Scale {
  readonly start: number;
  readonly end: number;
  readonly ticks: readonly number[];
  readonly share: (value: number) => number;
}

/** Where the axis is too short for these, the finer ones beneath. */
const steps = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500];
const fineSteps = [0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.2, 1.4, 1.7, 2, 2.5, 3];

/**
 * An axis of ratios: equal factors are equal lengths and 1 is always on it. It holds every value
 * that is above nothing; a limit beyond twice the farthest value runs out of it.
 */
export function ratioAxis(values: readonly number[], limits: readonly number[]): Scale {
  const positive = values.filter((value) => value > 0);
  const [least, most] = [Math.min(1, ...positive), Math.max(1, ...positive)];
  const near = limits.filter((limit) => limit >= least / 2 && limit <= most * 2);
  const start = Math.max(0.01, Math.min(0.8, least / 1.08, ...near));
  const end = Math.min(500, Math.max(1.25, most * 1.08, ...near));
  const span = Math.log(end / start);
  const within = (all: readonly number[]) => all.filter((step) => step >= start * 0.999 && step <= end * 1.001);
  const coarse = within(steps);
  return {
    ...{ start, end },
    ticks: coarse.length < 3 ? within(fineSteps) : coarse,
    share: (value) => Math.min(1, Math.max(0, Math.log(Math.max(value, start) / start) / span)),
  };
}
