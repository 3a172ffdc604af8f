/** The bytes that give a table of text its form. */
export const lineFeed = 10;
export const returnMark = 13;
export const quote = 34;
export const comma = 44;
export const semicolon = 59;
export const tab = 9;
export const bar = 124;
export const space = 32;
export const delimiters = [comma, semicolon, tab, bar] as const;

/** Spaces of any kind within ASCII; a byte of zero is none. */
export const isBlank = (byte: number): boolean => byte === space || (byte >= 9 && byte <= 13);
