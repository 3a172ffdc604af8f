/** What no number here claims, beside the cautions of every finding. */
export const neverClaimed: readonly string[] = [
  'That fewer failures were seen by so much in a hundred, without the interval and the time it was seen over.',
  'That a shop, a step or a hub in grease does not leak because few leaks were seen: with none in n installations the true share may be as high as 3 in n.',
  'That a vehicle meets a rule or is to be put out of service, or that a maker’s instruction may be left aside.',
  'That what held for these builds, lubricants and duties holds for others without lives in the records.',
];
