export interface Comparison {
  /** Numbers both programs gave. */
  readonly numbers: number;
  /** Largest |ours − theirs| / max(|ours|, |theirs|). */
  readonly largest: number;
}

/** R leaves limits out (NA) where the curve is still at 1; we give a bound there, so those are not compared. */
export function compareAnswers(ours: Float64Array, theirs: Float64Array): Comparison {
  if (ours.length !== theirs.length)
    throw new Error(`the two programs answer different questions: ${ours.length} and ${theirs.length} numbers`);
  let [numbers, largest] = [0, 0];
  for (let at = 0; at < ours.length; at++) {
    const [a, b] = [ours[at] as number, theirs[at] as number];
    if (Number.isNaN(b)) continue;
    numbers++;
    const difference = a === b ? 0 : Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b));
    if (!(difference <= largest)) largest = difference;
  }
  return { numbers, largest };
}
