/** An axis from 0 to `end` with ticks at multiples of `step`, all in shown units. */
export interface NiceAxis {
  readonly end: number;
  readonly ticks: readonly number[];
}

/** Steps of 1, 2 or 5 times a power of ten, at most `most` of them, the last at or past `reach`. */
export function niceAxis(reach: number, most: number): NiceAxis {
  const safe = reach > 0 && Number.isFinite(reach) ? reach : 1;
  const rough = safe / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((candidate) => candidate >= rough * (1 - 1e-9));
  const size = step ?? power * 10;
  const count = Math.max(1, Math.ceil(safe / size - 1e-9));
  const ticks = Array.from({ length: count + 1 }, (_, index) => Number((index * size).toPrecision(12)));
  return { end: ticks[count] ?? size, ticks };
}

/** Ticks of an axis that ends at `end` itself: at most `most`, but two where any step gives two. */
export function ticksWithin(end: number, most: number): readonly number[] {
  const within = (count: number) => niceAxis(end, count).ticks.filter((tick) => tick <= end * 1.0001);
  const ticks = within(most);
  // A step that only 0 fits leaves the axis without a measure.
  return ticks.length > 1 || !(end > 0) ? ticks : within(most * 2);
}
