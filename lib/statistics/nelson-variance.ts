import type { RecurrentRows } from './recurrent-rows.ts';
import type { RiskOrder } from './risk-order.ts';

/**
 * Nelson's unbiased variance of a mean cumulative function, as in Meeker & Escobar 1998 §16.2.3: sample
 * variances and covariances of the subjects' events at pairs of times, over those watched at the later.
 * Summed in one sweep: for each subject Z = Σ d_ik/n_k of its events so far, and ΣZ of those at risk. Null
 * with weights and from where fewer than two subjects are at risk; it can come out negative.
 */
export function nelsonVariance(
  order: RiskOrder,
  part: number,
  { event, subject, weight }: RecurrentRows,
  {
    time,
    atRisk,
    events,
  }: { readonly time: Float64Array; readonly atRisk: Float64Array; readonly events: Float64Array },
): (number | null)[] {
  if (weight) return Array.from(time, () => null);
  const { rows, time: exits, lateRows, lateTime } = order;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  const past = new Float64Array(subject.count);
  const variance: (number | null)[] = [];
  let pastAtRisk = 0;
  let sum = 0;
  let late = order.lateStart[part] as number;
  // Nobody has had an event before the first exit, so those at risk from the start bring Z = 0.
  let k = order.start[part] as number;
  for (let step = 0; k < end;) {
    const now = exits[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++)
      pastAtRisk += past[subject.codes[lateRows[late] as number] as number] as number;
    const n = atRisk[step] as number;
    const isStep = time[step] === now;
    let [squares, crossed, first] = [0, 0, k];
    for (; k < end && exits[k] === now; k++) {
      const row = rows[k] as number;
      const count = event[row] as number;
      squares += count * count;
      crossed += count * (past[subject.codes[row] as number] as number);
    }
    if (isStep) {
      const d = events[step] as number;
      const within = (squares - (d * d) / n) / ((n - 1) * n);
      const between = (crossed - (d / n) * pastAtRisk) / (n - 1);
      sum += within + 2 * between;
      variance.push(n < 2 || variance[step - 1] === null ? null : sum);
      step++;
    }
    for (; first < k; first++) {
      const row = rows[first] as number;
      const code = subject.codes[row] as number;
      // The stretch ends with its events; whoever stays under observation enters again with them in Z.
      pastAtRisk -= past[code] as number;
      if (isStep) past[code] = (past[code] as number) + (event[row] as number) / n;
    }
  }
  return variance;
}
