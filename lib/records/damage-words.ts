/** What a program says of itself rather than of a file. */
const ofPrograms = /undefined|\bnull\b|\bNaN\b|\[object|typed array|is not a /i;

/** What is wrong with a damaged file, in words for whoever has it. */
export function damageWords(error: unknown): string {
  const said = error instanceof Error ? error.message : String(error);
  const own = error instanceof TypeError || error instanceof RangeError || error instanceof SyntaxError;
  return `is damaged, cut short or not to be had: ${own || said === '' || ofPrograms.test(said) ? 'what is in it does not fit together' : said}`;
}
