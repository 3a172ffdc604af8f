const mostListed = 20;

/** Names for a sentence; of very many the first, and how many more there are. */
export function listed(names: readonly string[]): string {
  const more = names.length - mostListed;
  return more > 0 ? `${names.slice(0, mostListed).join(', ')} and ${more} more` : names.join(', ');
}
