import { valueSays } from '../../../lib/charts/index.ts';
import { percentSign } from '../../../shared/percent-sign.ts';
import type { View } from '../../../shared/view.ts';

const says = (code: string): string => valueSays('deviation', code);

export const savingSays = ({ saving }: View): string =>
  saving.length === 0 ? 'those that surely go with more failures' : saving.map(says).join(', ');

/** `0.02` as the number of a hundred that it is written as. */
export const perCent = (share: number): string => String(Number((share * 100).toPrecision(6)));

/** Levels of their own, of the deviations made rarer. */
export function levelsSay({ saving, savingLevels }: View): string {
  const own = saving.flatMap((code) => {
    const share = savingLevels[code];
    return share === undefined ? [] : [`${says(code)} to ${perCent(share)}${percentSign}`];
  });
  return own.length === 0 ? 'none with a level of its own' : own.join(', ');
}
