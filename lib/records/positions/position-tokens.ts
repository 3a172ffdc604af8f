import { ordinalWords, positionWords, sideOnlyWords, type Reading } from './spellings.ts';

/** A piece of a spelling: a word with its readings, a number, or something that the table does not have. */
export type PositionToken =
  | { readonly kind: 'word'; readonly readings: readonly Reading[] }
  | { readonly kind: 'number'; readonly value: number; readonly ordinal: boolean }
  | { readonly kind: 'unknown'; readonly text: string };

/** A spelling as it is compared: capitals, one space between pieces, `L/F` as `LF`, `2nd` whole, `RR2` parted. */
export function piecesOf(text: string): string[] {
  return (
    text
      .normalize('NFKD')
      .replaceAll(/\p{M}/gu, '')
      .toUpperCase()
      // Remove and replace, or install: the job, and no right side and no rear.
      .replaceAll(/(?<![A-Z])R\s*(?:&|\+|AND)\s*[RI](?![A-Z])/g, ' REMOVEANDREPLACE ')
      .replaceAll(/(?<![A-Z])([A-Z])([/.])([A-Z])(?![A-Z])\.?/g, (pair, first, _mark, second) =>
        pair === 'L/R' ? pair : `${first}${second}`,
      )
      .replaceAll(/(\d+(?:ST|ND|RD|TH|ERE|ER|EME|E))(?![A-Z])/g, ' $1 ')
      .replaceAll(/(?<=\d)(?=[^\W\d])(?!(?:ST|ND|RD|TH|ERE|ER|EME|E)(?![A-Z]))|(?<=[^\W\d])(?=\d)/g, ' ')
      .split(/(?!(?<=L)\/(?=R))[^\p{L}\p{N}]+/u)
      .filter(Boolean)
  );
}

/** @param onlySide that the spelling comes from a column that says nothing but the side */
export function positionTokens(text: string, onlySide: boolean): PositionToken[] {
  const words = onlySide ? sideOnlyWords : positionWords;
  return piecesOf(text).map((piece): PositionToken => {
    const ordinal = ordinalWords.get(piece);
    if (ordinal !== undefined) return { kind: 'number', value: ordinal, ordinal: true };
    if (/^\d+$/.test(piece)) return { kind: 'number', value: Number(piece), ordinal: false };
    const readings = words.get(piece);
    return readings ? { kind: 'word', readings } : { kind: 'unknown', text: piece };
  });
}
