/** One sentence for a part of a link that could not be used. */
export const notice = (name: string, rule: string, texts: readonly string[]): string =>
  `This link's “${name}” is not used. It must be ${rule}; it says “${texts.join('”, “')}”.`;
