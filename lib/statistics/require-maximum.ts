import { EXACT, INTERVAL, RIGHT, type LifeRows } from './life-rows.ts';
import { StatisticsError } from './statistics-error.ts';

/**
 * Refuses lives that no maximum exists for. With z = α log t − γ the likelihood climbs for ever
 * where one time fits every row at once (α → ∞), or where all found failed were inspected before
 * all found running (α → −∞): the location-scale form of complete separation.
 */
export function requireMaximum(rows: LifeRows, shapeIsFree: boolean): void {
  if (rows.failedWeight === 0) throw new StatisticsError('event', 'no failures: only a bound on the rate can be had');
  const ends = rangesByKind(rows);
  const exact = ends.exactTo > -Infinity;
  const intervals = ends.intervalFrom > -Infinity;
  if (!exact && !ends.seenRunning && ends.runningTo === -Infinity)
    throw new StatisticsError('upper', 'every unit was found failed at its first inspection: life has no lower bound');
  if (!shapeIsFree) return;
  if (Math.max(ends.runningTo, ends.intervalFrom, ends.exactTo) <= Math.min(ends.foundFrom, ends.exactFrom))
    throw new StatisticsError(
      exact ? 'event' : 'upper',
      'one and the same life fits every row: the shape has no upper bound',
    );
  if (!exact && !intervals && ends.foundTo <= ends.runningFrom)
    throw new StatisticsError(
      'upper',
      'all found failed were inspected before all found running: no shape above zero fits',
    );
}

/** Earliest and latest exact life, time still running, time found failed; latest start of an interval, and whether any was seen running between its entry and its end. */
function rangesByKind({ kind, log, logLower, logEntry, size }: LifeRows) {
  const ends = { exactFrom: Infinity, exactTo: -Infinity, runningFrom: Infinity, runningTo: -Infinity };
  const found = { foundFrom: Infinity, foundTo: -Infinity, intervalFrom: -Infinity, seenRunning: false };
  for (let k = 0; k < size; k++) {
    const at = log[k] as number;
    if (kind[k] === EXACT) {
      if (at < ends.exactFrom) ends.exactFrom = at;
      if (at > ends.exactTo) ends.exactTo = at;
    } else if (kind[k] === RIGHT) {
      if (at < ends.runningFrom) ends.runningFrom = at;
      if (at > ends.runningTo) ends.runningTo = at;
    } else {
      if (at < found.foundFrom) found.foundFrom = at;
      if (at > found.foundTo) found.foundTo = at;
      if (kind[k] !== INTERVAL) continue;
      const start = logLower?.[k] as number;
      if (start > found.intervalFrom) found.intervalFrom = start;
      if (logEntry === null || start > (logEntry[k] as number)) found.seenRunning = true;
    }
  }
  return { ...ends, ...found };
}
