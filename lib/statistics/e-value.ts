import { StatisticsError } from './statistics-error.ts';

export interface EValueOptions {
  /** What the ratio is; `risk` (default) also serves a rate ratio, or a hazard ratio of a rare failure. */
  readonly measure?: 'risk' | 'hazard' | 'odds';
  /** Whether more than about 15 % fail by the end of follow-up; then a hazard or odds ratio is first brought to risks. */
  readonly common?: boolean;
  /** The ratio that would be explained away to; 1 unless given. */
  readonly nullRatio?: number;
}

export interface EValue {
  /** Least risk ratio with both the exposure and the failure that could, unmeasured, explain the estimate away. */
  readonly value: number;
  /** The same for the limit nearer the null; 1 when the interval already holds it; null without limits. */
  readonly limit: number | null;
}

/**
 * How strong an unmeasured confounder would have to be, above all measured ones, to move a ratio to the null: it
 * would need a risk ratio of at least this much with both the exposure and the failure.
 *
 * Source: VanderWeele & Ding 2017, Annals of Internal Medicine 167:268, and its appendix table for other measures:
 * with a common failure OR → √OR and HR → (1 − 0.5^√HR)/(1 − 0.5^√(1/HR)). Outside check: the paper's worked
 * examples.
 *
 * @throws StatisticsError for a ratio that is not above zero, or limits that do not hold it.
 */
export function eValue(
  ratio: { readonly value: number; readonly lower?: number | null; readonly upper?: number | null },
  options: EValueOptions = {},
): EValue {
  const { value, lower = null, upper = null } = ratio;
  const nullRatio = options.nullRatio ?? 1;
  if (!(value > 0 && value < Infinity)) throw new StatisticsError('value', `${value} is not a ratio above zero`);
  if (!(nullRatio > 0 && nullRatio < Infinity))
    throw new StatisticsError('nullRatio', `${nullRatio} is not above zero`);
  if (lower !== null && !(lower >= 0 && lower <= value))
    throw new StatisticsError('lower', `${lower} is not below ${value}`);
  if (upper !== null && !(upper >= value)) throw new StatisticsError('upper', `${upper} is not above ${value}`);
  const strength = (observed: number) => needed(toRisk(observed, options) / toRisk(nullRatio, options));
  const near = value > nullRatio ? lower : upper;
  // With neither limit the interval is not given; with the far one only, the near one is unbounded and holds the null.
  const limit = near !== null ? ((near - nullRatio) * (value - nullRatio) > 0 ? strength(near) : 1) : null;
  return { value: strength(value), limit: near === null && (lower ?? upper) !== null ? 1 : limit };
}

function toRisk(ratio: number, { measure = 'risk', common = false }: EValueOptions): number {
  if (!common || measure === 'risk') return ratio;
  if (measure === 'odds') return Math.sqrt(ratio);
  return (1 - 0.5 ** Math.sqrt(ratio)) / (1 - 0.5 ** Math.sqrt(1 / ratio));
}

function needed(risk: number): number {
  const away = Math.max(risk, 1 / risk);
  return away + Math.sqrt(away * (away - 1));
}
