const mostListed = 20;

/** Names for a sentence; of very many the first, and how many more there are. */
export function listed(names: readonly string[]): string {
  const more = names.length - mostListed;
  return more > 0 ? `${names.slice(0, mostListed).join(', ')} and ${more} more` : names.join(', ');
}

const longestShown = 600;

/** Names out of a file for a sentence: on one line, and cut where they go on for long. */
export function shownNames(names: readonly string[]): string {
  const shown = names.map((name) => name.trim().replaceAll(/[\u0000-\u001f\u007f\ufffd]/g, '·')).join(', ');
  return shown.length > longestShown ? `${shown.slice(0, longestShown)} …` : shown;
}
