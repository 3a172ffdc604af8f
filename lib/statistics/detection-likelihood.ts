import { FOUND, type DetectionPieces } from './detection-pieces.ts';

/** log shape, log scale of the onset, logit of the chance a check, log of the rate between checks. */
export const DETECTION_PARAMETERS = 4;

/** Value and, by life, its slope in each parameter. */
export interface DetectionScores {
  readonly value: number;
  /** Row-major, a life a row. */
  readonly scores: Float64Array;
}

/**
 * Log-likelihood of lives whose defect begins at a Weibull age and then comes to light at each check
 * with one chance q, and between checks at one rate d:
 * B = Σ pieces (S(from) − S(to)) · (1 − q)^(checks after) · mean e^(−d (exit − t)); a life found at a
 * check has q·B, found otherwise d·B, not found S(exit) + B. Within a piece onset is taken as even.
 */
export function detectionScores(pieces: DetectionPieces, at: ArrayLike<number>): DetectionScores {
  const shape = Math.exp(at[0] as number);
  const logScale = at[1] as number;
  const chance = 1 / (1 + Math.exp(-(at[2] as number)));
  const rate = Math.exp(at[3] as number);
  const scores = new Float64Array(pieces.lives * DETECTION_PARAMETERS);
  const logMiss = Math.log1p(-chance);
  let value = 0;
  for (let life = 0; life < pieces.lives; life++) {
    const exit = pieces.exit[life] as number;
    let [sum, byShape, byScale, byChance, byRate] = [0, 0, 0, 0, 0];
    let hazard = 0;
    let hazardByShape = 0;
    for (let piece = pieces.first[life] as number; piece < (pieces.first[life + 1] as number); piece++) {
      const to = pieces.to[piece] as number;
      const width = to - (pieces.from[piece] as number);
      const logEnd = shape * (Math.log(to) - logScale);
      const end = Math.exp(logEnd);
      const endByShape = end * logEnd;
      const [alive, left] = [Math.exp(-hazard), Math.exp(-end)];
      const mass = alive - left;
      const wait = rate * (exit - to);
      const z = rate * width;
      const mean = z > 1e-8 ? -Math.expm1(-z) / z : 1 - z / 2;
      const missed = pieces.missed[piece] as number;
      const hidden = Math.exp(missed * logMiss - wait);
      sum += mass * hidden * mean;
      byShape += (left * endByShape - alive * hazardByShape) * hidden * mean;
      byScale -= shape * (left * end - alive * hazard) * hidden * mean;
      byChance -= missed * chance * mass * hidden * mean;
      byRate += mass * hidden * (Math.exp(-z) - mean - wait * mean);
      hazard = end;
      hazardByShape = endByShape;
    }
    const found = pieces.found[life] as number;
    const survived = found === FOUND.not ? Math.exp(-hazard) : 0;
    const total = sum + survived;
    const [seen, dry] = [pieces.seenAgain[life] as number, pieces.missedAgain[life] as number];
    const hits = seen + (found === FOUND.atCheck ? 1 : 0);
    value += Math.log(total) + hits * Math.log(chance) + dry * logMiss;
    if (found === FOUND.between) value += at[3] as number;
    const row = life * DETECTION_PARAMETERS;
    scores[row] = (byShape - survived * hazardByShape) / total;
    scores[row + 1] = (byScale + survived * shape * hazard) / total;
    scores[row + 2] = byChance / total + hits * (1 - chance) - dry * chance;
    scores[row + 3] = byRate / total + (found === FOUND.between ? 1 : 0);
  }
  return { value, scores };
}
