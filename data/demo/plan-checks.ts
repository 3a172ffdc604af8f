import { DAYS_PER_YEAR } from './calendar.ts';
import type { DemoUnit } from './draw-unit.ts';
import { CLASSES, observedFromDay } from './story.ts';

type CheckKind = 'driver' | 'pm' | 'annual' | 'roadside' | 'pre-hire';

/** One look round the vehicle: every wheel end is on its sheet. */
export interface Check {
  readonly day: number;
  readonly kind: CheckKind;
  readonly sheet: string;
}

const MISSED_SHARE = 0.08;

/** All checks of a unit in date order; those before the window are made but leave no sheet. */
export function planChecks(unit: DemoUnit): Check[] {
  const { random, fromDay, toDay, serial, unitClass } = unit;
  const { checkDays, roadsidePerYear } = CLASSES[unitClass];
  const planned: { day: number; kind: CheckKind }[] = [];
  if (unit.row.acquired === 'used' && fromDay > observedFromDay) planned.push({ day: fromDay, kind: 'pre-hire' });
  let annualDue = fromDay + random.below(365);
  for (let day = fromDay + random.below(checkDays); day <= toDay; day += slip(unit, checkDays)) {
    const annual = day >= annualDue;
    if (annual) annualDue = day + 340;
    else if (random.chance(MISSED_SHARE)) continue;
    planned.push({ day, kind: annual ? 'annual' : 'pm' });
  }
  const meanWait = DAYS_PER_YEAR / roadsidePerYear;
  for (let day = fromDay + Math.ceil(random.exponential(meanWait)); day <= toDay;)
    if (planned.push({ day, kind: 'roadside' })) day += Math.ceil(random.exponential(meanWait));
  planned.sort((a, b) => a.day - b.day);
  return planned
    .filter(({ day }) => day !== observedFromDay)
    .map((check, index) => ({ ...check, sheet: `P${serial}-${index + 1}` }));
}

function slip({ random }: DemoUnit, days: number): number {
  return Math.max(20, Math.round(days * Math.exp(0.15 * random.normal())));
}
