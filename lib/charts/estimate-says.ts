import type { Estimate } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { intervalText, shownQuantity } from './shown-number.ts';

/** An estimate in the reader's units with its interval, or why there is none. */
export function estimateSays(estimate: Estimate, system: UnitSystem): string {
  const quantity = shownQuantity(estimate.unit, system);
  const interval = intervalText(estimate, quantity);
  const unit = quantity.symbol === '' ? '' : ` ${quantity.symbol}`;
  if (estimate.value === null)
    return interval === '' ? `cannot tell: ${estimate.reason ?? ''}` : `${interval}${unit} (${estimate.reason ?? ''})`;
  const value = quantity.text(estimate.value * quantity.factor);
  return interval === '' ? `${value}${unit}` : `${value}${unit} (${interval})`;
}
