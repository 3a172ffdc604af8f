import type { Estimate } from '../../../shared/finding.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { savingDraws, savingSeed, type Saved, type SavedOf } from './saving-draws.ts';

const units: Readonly<Record<keyof Saved, string>> = {
  perThousand: 'per 1,000 installations',
  perYear: 'failures a year',
  share: 'share',
};

const methods: Readonly<Record<keyof Saved, string>> = {
  perThousand:
    'adjusted Cox model of every deviation told, late entry, standardised to these lives, had none been renewed',
  perYear: 'failures of the last two years in excess of what the joint ratios leave',
  share: 'failures on record in excess of what the joint ratios leave (Bruzzi)',
};

/** One quantity at the estimates with the limits of its draws. */
export function savedEstimate({ value, draws }: SavedOf, name: keyof Saved, level: number, missing: string): Estimate {
  const method = `${methods[name]}; ${savingDraws} draws of ratios, shares and rate, whole vehicles weighted, seed ${savingSeed}`;
  const about = { level, unit: units[name], method };
  if (!Number.isFinite(value[name])) return noEstimate({ ...about, reason: missing });
  const sorted = draws
    .map((draw) => draw[name])
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  const at = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.max(0, Math.round(share * (sorted.length - 1))))] ?? null;
  return toEstimate({ value: value[name], lower: at((1 - level) / 2), upper: at((1 + level) / 2) }, about);
}

/** Twice the share of draws on the other side of nothing saved. */
export function chanceOfNone({ draws }: SavedOf): number | null {
  if (draws.length === 0) return null;
  const below = draws.filter(({ share }) => share <= 0).length / draws.length;
  return Math.min(1, 2 * Math.max(Math.min(below, 1 - below), 0.5 / draws.length));
}
