import { shownLimits, type Estimate } from '../../shared/finding.ts';
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

/** Level and kind of the limits shown, and the other kind where two were worked out and the wider is shown. */
export function intervalKindSays(estimate: Estimate, units: UnitSystem): string {
  const { lower, upper } = shownLimits(estimate);
  if (lower === null && upper === null) return 'none';
  const level = `${Number((100 * estimate.level).toPrecision(3))}\u00a0%`;
  const { vehicleLower, vehicleUpper } = estimate;
  if (vehicleLower === undefined && vehicleUpper === undefined) return `${level}, by the method named`;
  const says = (limit: number | null | undefined) => limitSays(limit, estimate.unit, units);
  return `${level}; at each end the outer of the method’s own limit (${says(estimate.lower)} to ${says(estimate.upper)}) and the one that lets the wheel ends of a vehicle share its fate (${says(vehicleLower)} to ${says(vehicleUpper)})`;
}

function limitSays(limit: number | null | undefined, unit: string, units: UnitSystem): string {
  if (limit == null) return 'unbounded';
  const quantity = shownQuantity(unit, units);
  return quantity.text(limit * quantity.factor);
}
