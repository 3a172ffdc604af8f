/** What is measured when a wheel end is put together; the window of each is the procedure's. */
export const measuredWords = {
  'inner-torque': 'torque of the inner nut',
  'outer-torque': 'torque of the outer nut',
  'end-play': 'end play',
} as const;
export type MeasuredQuantity = keyof typeof measuredWords;
export const measuredQuantities = Object.keys(measuredWords) as MeasuredQuantity[];

/** The value behind each deviation that is a value out of its window, or a value not taken. */
export const measuredBehind: Readonly<Partial<Record<string, MeasuredQuantity>>> = {
  'inner-torque-out': 'inner-torque',
  'outer-torque-out': 'outer-torque',
  'end-play-high': 'end-play',
  'end-play-low': 'end-play',
  'end-play-unmeasured': 'end-play',
};
