import { shownLimits, type Doubt, type Estimate } from '../../../shared/finding.ts';
import { ratioText } from '../words/wording.ts';
import { doubt } from './doubt.ts';

const fewVehicles = 10;

/**
 * Wheel ends of one vehicle share its duty and its care, so they fail together. The wider limits
 * are the ones shown, which settles it where there are vehicles enough to tell how wide.
 */
export function vehicleClustering(estimate: Estimate, vehicles: number): Doubt | null {
  // Without an event there is nothing to fail together.
  if (estimate.value === null || estimate.value === 0) return null;
  const settledBy = 'more vehicles';
  if (estimate.vehicleLower === undefined || vehicles < fewVehicles)
    return doubt(
      'Wheel ends of one vehicle',
      'cannot-tell',
      `With ${vehicles === 1 ? 'one vehicle' : `${vehicles} vehicles`} it cannot be told how far wheel ends of one vehicle fail together.`,
      settledBy,
    );
  const width = ({ lower, upper }: { lower: number | null; upper: number | null }) =>
    lower === null || upper === null ? NaN : upper - lower;
  const times = width(shownLimits(estimate)) / width(estimate);
  const detail =
    times > 1.05
      ? `Wheel ends of one vehicle fail together: limits that allow for it are ${ratioText(times)} times as wide, and are the ones shown.`
      : 'Limits that allow for several wheel ends on one vehicle are hardly wider.';
  return doubt('Wheel ends of one vehicle', 'holds', detail, settledBy);
}
