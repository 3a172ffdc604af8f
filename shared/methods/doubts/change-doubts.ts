import type { DoubtWords } from './doubt-words.ts';

/** Plans, savings, and whether a change worked. */
export const changeDoubts = {
  'Costs entered': {
    asks: 'What the plan would be did a failure cost half as much, or twice as much; of a saving, that its money is failures fewer times a cost entered.',
    so: 'Costs are entered, not read from the records. Where the plan turns, or money decides, find them out first.',
  },
  'What goes with it would go with it': {
    asks: 'Said of every saving: it is worked out as if what goes with the deviation went away with it.',
    so: 'A hurried job may carry something else that nobody wrote down, and would still fail. A trial at some shops tells.',
  },
  'Chosen by their numbers': {
    asks: 'Whether the deviations were named, or taken because their limits lie above 1.',
    so: 'Those that stand out of many stand out too far: the saving is likely too large.',
  },
  'The lowest of several shops': {
    asks: 'Whether the level aimed at is the lowest of several shops.',
    so: 'One of several is lowest by chance, or by writing less down.',
  },
  'Written down beforehand': {
    asks: 'Whether date, shops and what counts as success were written down before the change.',
    so: 'Chosen after a look at the numbers, they find differences where there are none.',
  },
  'Picked after a bad spell': {
    asks: 'Whether the shops changed had failed more than their own average just before.',
    so: 'After such a spell a shop gets better by itself. The limits shown reach over the answer with the spell and without it.',
  },
  'The same where nothing was changed': {
    asks: 'How far the same contrast lies from 1 at other shops and at earlier dates, where nothing was changed.',
    so: 'Where those lie as far, the answer may be what always happens.',
  },
  'Other shops over the same time': {
    asks: 'What the shops that did not change did over the same time.',
    so: 'Without them nothing tells what would have been without the change: weather, work and looking change too.',
  },
  'Whether it was followed': {
    asks: 'Whether the deviations that the change was to stop became rarer.',
    so: 'If not, the change was not made, or something else brought the difference.',
  },
  'What must not get worse': {
    asks: 'Whether bearings, hot hubs and other guards fail more after the change.',
    so: 'A change that moves failures elsewhere did not work. Each hot hub is looked at by itself.',
  },
  'Ages in common': {
    asks: 'Up to what age both cohorts were watched.',
    so: 'Only there are they compared: what happens to older parts is not told yet.',
  },
} as const satisfies Record<string, DoubtWords>;
