/**
 * Root of a function that changes sign between two ends, by bisection kept fast with secant steps
 * (the Illinois form of regula falsi; Dowell & Jarratt 1971, BIT 11:168). Stops when the bracket
 * is a few units in the last place wide, so the answer is as good as the function is.
 *
 * @throws RangeError when the ends do not bracket a root: a fault of the caller, not of the data.
 */
export function findRoot(f: (x: number) => number, from: number, to: number): number {
  let [left, right] = [from, to];
  let [atLeft, atRight] = [f(left), f(right)];
  if (atLeft === 0) return left;
  if (atRight === 0) return right;
  if (!(atLeft * atRight < 0))
    throw new RangeError(`no sign change between ${from} (${atLeft}) and ${to} (${atRight})`);
  for (let step = 0; step < 400; step++) {
    if (Math.abs(right - left) <= 4 * Number.EPSILON * Math.max(Math.abs(left), Math.abs(right), 1e-300)) break;
    // Every third step halves the bracket outright, so that a flat function cannot stall the secant.
    const secant = right - (atRight * (right - left)) / (atRight - atLeft);
    const inside = (secant - left) * (secant - right) < 0;
    const middle = step % 3 === 2 || !inside ? left + (right - left) / 2 : secant;
    if (middle === left || middle === right) break;
    const atMiddle = f(middle);
    if (atMiddle === 0) return middle;
    if (atMiddle * atRight < 0) [left, atLeft] = [right, atRight];
    else atLeft /= 2;
    [right, atRight] = [middle, atMiddle];
  }
  return Math.abs(atLeft) < Math.abs(atRight) ? left : right;
}
