import type { Finding } from '../../../shared/finding.ts';

export interface Planned {
  readonly failures: number | null;
  readonly months: number | null;
  readonly says: string;
}

/** Failures and months needed by the finding's own plans, at the ratio next below; of several shops, what the slowest needs. */
export function plannedFor({ series, settings }: Finding, shops: readonly string[], ratio: number): Planned | null {
  if (shops.length === 0 || !(ratio > 0 && ratio < 1)) return null;
  const plans = series.filter(({ name }) => name === 'plan');
  const same =
    shops.length === settings.changedShops.length && shops.every((shop) => settings.changedShops.includes(shop));
  const whole = plans.filter(({ group }) => same && group === 'where changed');
  const own = whole.length > 0 ? whole : plans.filter(({ group }) => shops.includes(group));
  const [first] = own;
  if (!first) return null;
  const ratios = first.columns['ratio'] ?? [];
  const at = Math.max(
    0,
    ratios.findLastIndex((value) => value !== null && value <= ratio + 1e-9),
  );
  const most = (name: string): number | null => {
    const read = own.map(({ columns }) => columns[name]?.[at] ?? null);
    return read.includes(null) ? null : Math.max(...read.map((value) => value ?? 0));
  };
  const [failures, months] = [most('failuresNeeded'), most('monthsNeeded')];
  const told = `To find ${String(ratios[at])} times as many four times in five, `;
  if (failures === null)
    return { failures, months, says: `${told}no number of failures after would do: there are too few before.` };
  const wait =
    months === null ? 'over 240 months at the present pace' : `about ${String(months)} months at the present pace`;
  return { failures, months, says: `${told}${String(failures)} failures of what is fitted after are needed: ${wait}.` };
}
