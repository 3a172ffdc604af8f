import { displayUnit, type UnitSystem } from '../../../shared/units.ts';
import type { ReadReport } from '../../../shared/record-set.ts';
import type { OpenedRecords } from '../../_state/opened-records.ts';
import { percentSign } from '../../../shared/percent-sign.ts';

const whole = (value: number) => value.toLocaleString('en-US');
const counted = (value: number, one: string) => `${whole(value)} ${one}${value === 1 ? '' : 's'}`;

export interface RowTotals {
  readonly read: number;
  readonly kept: number;
  readonly setAside: number;
}

export const rowTotals = ({ files }: ReadReport): RowTotals => ({
  read: files.reduce((sum, { read }) => sum + read, 0),
  kept: files.reduce((sum, { kept }) => sum + kept, 0),
  setAside: files.reduce((sum, { setAside }) => sum + setAside, 0),
});

/** `99.1 %`; a share short of all rows is never rounded up to all of them. */
export function shareOf(part: number, whole: number): string {
  if (whole === 0) return `0${percentSign}`;
  const percent = Math.floor((part / whole) * 1000) / 10;
  return `${percent === 100 ? '100' : percent.toFixed(1)}${percentSign}`;
}

/** Name and size of what is open, in a line; a record set without a name of its own goes by its files. */
export function openedSays(
  { report, vehicles, lives, miles }: Pick<OpenedRecords, 'report' | 'vehicles' | 'lives' | 'miles'>,
  units: UnitSystem,
): string {
  const { factor, symbol } = displayUnit('miles', units);
  const { read, kept } = rowTotals(report);
  const millions = (miles * factor) / 1e6;
  const name = report.invented && !/invented/i.test(report.name) ? `${report.name} (invented)` : report.name;
  return [
    name,
    counted(vehicles, 'vehicle'),
    `${whole(lives)} ${lives === 1 ? 'seal life' : 'seal lives'}`,
    `${millions.toLocaleString('en-US', { maximumFractionDigits: millions < 10 ? 1 : 0 })} M wheel-end ${symbol}`,
    `${shareOf(kept, read)} of rows used`,
  ].join(' · ');
}
