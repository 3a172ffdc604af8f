import type { MileageRule } from '../../shared/choices.ts';

/** What a unit's meter said on a day. Of two that contradict each other the more trusted is kept where nothing else decides. */
export interface MeterPoint {
  /** Whole days since 1970-01-01. */
  readonly day: number;
  readonly miles: number;
  /** 0 an estimated reading, 1 typed on a job, 2 a reading or the unit's own row. */
  readonly trust: number;
}

export type Rules = Readonly<Record<MileageRule, boolean>>;

/** Beyond this no vehicle goes: two drivers around the clock make about 1,200 (record contract, section 2). */
export const mostMilesADay = 1_500;

export const byDay = (a: MeterPoint, b: MeterPoint): number => a.day - b.day || a.miles - b.miles;

/** Whether a meter can have gone from one reading to a later one, by the rules that are on. */
export function agree(a: MeterPoint, b: MeterPoint, rules: Rules): boolean {
  if (rules['runs-backward'] && b.miles < a.miles) return false;
  return !(rules['too-fast'] && b.miles - a.miles > mostMilesADay * Math.max(b.day - a.day, 1));
}

/**
 * Miles a day not exceeded on half of the days, over readings that follow each other and can both be
 * right; null where no two do.
 * @param points by day
 */
export function medianPace(points: readonly MeterPoint[]): number | null {
  const stretches = points.slice(1).flatMap((point, at) => {
    const before = points[at] as MeterPoint;
    const days = point.day - before.day;
    const pace = (point.miles - before.miles) / days;
    return days > 0 && pace >= 0 && pace <= mostMilesADay ? [{ days, pace }] : [];
  });
  stretches.sort((a, b) => a.pace - b.pace);
  const half = stretches.reduce((sum, { days }) => sum + days, 0) / 2;
  let passed = 0;
  for (const { days, pace } of stretches) if ((passed += days) >= half) return pace;
  return null;
}
