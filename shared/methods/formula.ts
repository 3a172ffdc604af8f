/** A formula as a tree, so that what shows it needs no parser and no typesetting library. */
export type Formula = readonly FormulaPart[];
export type FormulaPart =
  | string
  | { readonly top: Formula; readonly bottom: Formula }
  | { readonly base: string; readonly sub?: string; readonly sup?: string }
  | { readonly sign: '∑' | '∏' | '∫'; readonly from: string; readonly to?: string };

export const over = (top: Formula | string, bottom: Formula | string): FormulaPart => ({
  top: typeof top === 'string' ? [top] : top,
  bottom: typeof bottom === 'string' ? [bottom] : bottom,
});
export const sub = (base: string, under: string): FormulaPart => ({ base, sub: under });
export const subSup = (base: string, under: string, above: string): FormulaPart => ({ base, sub: under, sup: above });
export const sup = (base: string, above: string): FormulaPart => ({ base, sup: above });
export const sumOver = (from: string): FormulaPart => ({ sign: '∑', from });
export const productOver = (from: string): FormulaPart => ({ sign: '∏', from });
export const integral = (from: string, to: string): FormulaPart => ({ sign: '∫', from, to });
