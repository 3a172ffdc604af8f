import { deviationCodes, deviationColumn } from '../../shared/deviations.ts';
import { seals } from './seals.ts';

/** The made-up seals of a large fleet, with every deviation recorded on most of them at random. */
export function deviantSeals(lives: number) {
  let state = 70_211;
  const random = () => (state = (state * 48271) % 2147483647) / 2147483647;
  const word = (share: number): string => {
    const drawn = random();
    return drawn < share ? 'yes' : drawn < 0.8 ? 'no' : 'unknown';
  };
  return seals(lives).map((life) => ({
    ...life,
    ...Object.fromEntries(deviationCodes.map((code, place) => [deviationColumn(code), word(0.01 + 0.003 * place)])),
  }));
}
