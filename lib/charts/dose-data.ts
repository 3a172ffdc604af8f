import type { Finding } from '../../shared/finding.ts';
import { measuredWords } from '../../shared/measured.ts';
import { displayUnit, type DisplayUnit, type UnitSystem } from '../../shared/units.ts';
import { percentSign } from '../../shared/percent-sign.ts';

interface Reading {
  readonly value: number;
  readonly lives: number;
  readonly failures: number;
}
interface HazardPoint {
  readonly value: number;
  readonly ratio: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** What the figure of a measured value is drawn from, in stored units. */
export interface DoseData {
  readonly quantity: string;
  readonly least: number;
  readonly most: number;
  readonly nominal: number;
  readonly readings: readonly Reading[];
  readonly hazard: readonly HazardPoint[];
}

export const measuredSays = (quantity: string): string =>
  (measuredWords as Readonly<Record<string, string>>)[quantity] ?? quantity;

export const doseUnit = (quantity: string, system: UnitSystem): DisplayUnit =>
  displayUnit(quantity === 'end-play' ? 'length' : 'torque', system);

/** A stored value as it is written on the axis: torques whole, end play to where it is read. */
export function doseText(value: number, quantity: string, system: UnitSystem): string {
  const shown = value * doseUnit(quantity, system).factor;
  if (shown === 0) return '0';
  return quantity === 'end-play' ? shown.toFixed(3) : String(Math.round(shown));
}

/** Null where no value was measured. */
export function doseData({ series }: Finding): DoseData | null {
  const named = (name: string) => series.find((one) => one.name === name);
  const window = named('window');
  const [least, most, nominal] = ['least', 'most', 'nominal'].map((name) => window?.columns[name]?.[0]);
  if (window === undefined || least == null || most == null || nominal == null) return null;
  const columns = (name: string) => named(name)?.columns ?? {};
  const [read, curve] = [columns('readings'), columns('hazard-over-value')];
  return {
    ...{ quantity: window.group, least, most, nominal },
    readings: (read['value'] ?? []).flatMap((value, at) =>
      value === null ? [] : [{ value, lives: read['lives']?.[at] ?? 0, failures: read['failures']?.[at] ?? 0 }],
    ),
    hazard: (curve['value'] ?? []).flatMap((value, at) => {
      const ratio = curve['ratio']?.[at];
      if (value === null || ratio == null) return [];
      return [{ value, ratio, lower: curve['lower']?.[at] ?? null, upper: curve['upper']?.[at] ?? null }];
    }),
  };
}

export interface DoseSpan {
  readonly from: number;
  readonly to: number;
  /** Lives read beyond the axis either way. */
  readonly beyond: number;
}

/** All readings, but no farther than one and a half windows beyond the window. */
export function doseSpan({ readings, least, most }: DoseData): DoseSpan {
  const width = most - least;
  const [low, high] = [least - 1.5 * width, most + 1.5 * width];
  const within = readings.filter(({ value }) => value >= low && value <= high).map(({ value }) => value);
  const pad = width * 0.12;
  return {
    from: Math.max(0, Math.min(least, ...within) - pad),
    to: Math.max(most, ...within) + pad,
    beyond: readings.reduce((sum, { value, lives }) => sum + (value < low || value > high ? lives : 0), 0),
  };
}

export const readingsIn = ({ readings }: DoseData): number => readings.reduce((sum, { lives }) => sum + lives, 0);

/** What the figure shows, in a sentence. */
export function doseSays(finding: Finding, system: UnitSystem): string {
  const data = doseData(finding);
  if (data === null) return 'No value was measured that could be drawn.';
  const { quantity, least, most, hazard } = data;
  const { symbol } = doseUnit(quantity, system);
  const { beyond } = doseSpan(data);
  const level = `${Number((finding.settings.level * 100).toPrecision(4))}${percentSign}`;
  const curve =
    hazard.length > 0
      ? `Times the hazard at the middle of the window, over the ${measuredSays(quantity)}, with ${level} limits (an arrow: they go on), and beneath it `
      : `Too few failures for a curve of the hazard over the ${measuredSays(quantity)}; drawn are `;
  const out = beyond > 0 ? ` ${beyond.toLocaleString('en-US')} read beyond the axis.` : '';
  return `${curve}the lives at each value written down, those that failed dark; shaded is the procedure’s window, ${doseText(least, quantity, system)} to ${doseText(most, quantity, system)} ${symbol}.${out}`;
}
