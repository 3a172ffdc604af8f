/** A place of the methods page, named after its part and its heading. */
export const anchorOf = (part: string, name: string): string =>
  `${part}-${name.toLowerCase().replaceAll(/[^a-z]+/g, '-')}`;
