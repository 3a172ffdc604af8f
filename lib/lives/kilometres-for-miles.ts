import { kilometresPerMile } from '../../shared/units.ts';
import { follows, nearMiles, offCourse, type Beside, type MeantMiles } from './course-fit.ts';
import type { MeterPoint, Rules } from './meter-point.ts';

/**
 * The miles meant where kilometres were written for them: the number, which the unit cannot have run, fits the
 * readings beside it once it is divided, and lies within two weeks' miles of what was to be expected; null where it
 * does not. Instruments show whole kilometres and whole
 * miles: rounded to whole miles, whole kilometres give back the miles that they were made of.
 */
export function kilometresForMiles(point: MeterPoint, beside: Beside, rules: Rules): MeantMiles | null {
  if (follows(point, beside, rules)) return null;
  const divided = point.miles / kilometresPerMile;
  const miles = Number.isInteger(point.miles) ? Math.round(divided) : divided;
  const off = offCourse(point, miles, beside, rules);
  return off === null || off > nearMiles(beside) ? null : { miles, off };
}
