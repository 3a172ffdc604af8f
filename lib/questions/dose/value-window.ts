import type { MeasuredQuantity } from '../../../shared/measured.ts';
import { displayUnit, type DisplayUnit, type UnitSystem } from '../../../shared/units.ts';

/** The procedure's window of a measured value, limits included. */
export interface ValueWindow {
  readonly least: number;
  readonly most: number;
}

/** One value the readings are put into: a stretch of the scale, and where it lies to the window. */
export interface Stretch {
  readonly label: string;
  readonly side: 'under' | 'inside' | 'over';
  readonly holds: (value: number) => boolean;
}

const shownIn = (quantity: MeasuredQuantity, system: UnitSystem): DisplayUnit =>
  displayUnit(quantity === 'end-play' ? 'length' : 'torque', system);

export const unitOf = (quantity: MeasuredQuantity, system: UnitSystem): string => shownIn(quantity, system).symbol;

/** A stored value in the reader's unit: torques to the tenth, end play finer than it can be read. */
export function valueText(value: number, quantity: MeasuredQuantity, system: UnitSystem): string {
  const shown = value * shownIn(quantity, system).factor;
  if (quantity !== 'end-play') return shown.toFixed(1).replace(/\.0$/, '');
  return system === 'us' ? shown.toFixed(4).replace(/(\.\d{3})0$/, '$1') : shown.toFixed(3);
}

/** Readings are kept to twelve digits where a unit was converted: the limit itself is inside. */
const near = (value: number): number => Math.abs(value) * 1e-9 + 1e-12;

export const sideOf = ({ least, most }: ValueWindow, value: number): Stretch['side'] => {
  if (value < least - near(least)) return 'under';
  return value > most + near(most) ? 'over' : 'inside';
};

/** The value a job aims at: the middle of the window. */
export const nominalOf = ({ least, most }: ValueWindow): number => (least + most) / 2;

export const isNominal = (window: ValueWindow, value: number): boolean =>
  Math.abs(value - nominalOf(window)) <= near(nominalOf(window));

/** Half a window and more under, under, the thirds of the window, over, half a window and more over. */
export function stretches(window: ValueWindow, quantity: MeasuredQuantity, system: UnitSystem): Stretch[] {
  const { least, most } = window;
  const width = most - least;
  const text = (value: number) => valueText(value, quantity, system);
  const unit = unitOf(quantity, system);
  const [farUnder, farOver] = [least - width / 2, most + width / 2];
  const [low, high] = [least + width / 3, most - width / 3];
  const side = (value: number) => sideOf(window, value);
  const inside = (from: number, to: number, holds: (value: number) => boolean): Stretch => ({
    label: `${text(from)} to ${text(to)} ${unit}`,
    side: 'inside',
    holds: (value) => side(value) === 'inside' && holds(value),
  });
  return [
    { label: `under ${text(farUnder)} ${unit}`, side: 'under', holds: (value) => value < farUnder },
    {
      label: farUnder > 0 ? `${text(farUnder)} to under ${text(least)} ${unit}` : `under ${text(least)} ${unit}`,
      side: 'under',
      holds: (value) => side(value) === 'under' && value >= farUnder,
    },
    inside(least, low, (value) => value < low),
    inside(low, high, (value) => value >= low && value <= high),
    inside(high, most, (value) => value > high),
    {
      label: `over ${text(most)} to ${text(farOver)} ${unit}`,
      side: 'over',
      holds: (value) => side(value) === 'over' && value <= farOver,
    },
    { label: `over ${text(farOver)} ${unit}`, side: 'over', holds: (value) => value > farOver },
  ];
}

/** Place among the stretches of that against which the others are held. */
export const middleStretch = 3;
