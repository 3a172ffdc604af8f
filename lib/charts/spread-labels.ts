/**
 * Moves labels apart along one axis as little as possible in order, so that neighbours stand at
 * least `gap` apart and all stay within [low, high].
 * @param wanted the place each label would like, any order
 * @returns the place of each label, in the order given; where not all fit, they share the room evenly
 */
export function spreadLabels(wanted: readonly number[], gap: number, low: number, high: number): number[] {
  const order = wanted.map((_, index) => index).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0) || a - b);
  const step = Math.min(gap, wanted.length > 1 ? (high - low) / (wanted.length - 1) : gap);
  // Blocks of touching labels, each at the mean of what its members want (pool adjacent violators).
  const blocks: { sum: number; size: number }[] = [];
  order.forEach((index, rank) => {
    blocks.push({ sum: (wanted[index] ?? 0) - rank * step, size: 1 });
    while (blocks.length > 1 && mean(blocks.at(-2)) > mean(blocks.at(-1))) {
      const last = blocks.pop();
      const before = blocks.at(-1);
      if (last && before) [before.sum, before.size] = [before.sum + last.sum, before.size + last.size];
    }
  });
  const places: number[] = [];
  let rank = 0;
  const ceiling = high - (wanted.length - 1) * step;
  for (const block of blocks)
    for (let member = 0; member < block.size; member += 1, rank += 1)
      places[order[rank] ?? 0] = Math.min(ceiling, Math.max(low, mean(block))) + rank * step;
  return places;
}

const mean = (block: { sum: number; size: number } | undefined): number => (block ? block.sum / block.size : 0);
