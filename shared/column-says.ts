/** A column of ours as it is spoken of. */
export const columnSays = (column: string): string =>
  column
    .replace(/_ftlb$/, '')
    .replace(/^end_play_in$/, 'end play')
    .replaceAll('_', ' ');
