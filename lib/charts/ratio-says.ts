import { shownQuantity } from './shown-number.ts';

/** A ratio with its interval in words: `1.32 (1.10–1.57)`. */
export function ratioSays(value: number | null, lower: number | null, upper: number | null): string {
  const { text } = shownQuantity('ratio', 'us');
  if (value === null) return 'cannot tell';
  if (lower === null && upper === null) return text(value);
  if (lower === null || upper === null)
    return `${text(value)} (${lower === null ? `up to ${text(upper ?? 0)}` : `from ${text(lower)}`})`;
  return `${text(value)} (${text(lower)}–${text(upper)})`;
}
