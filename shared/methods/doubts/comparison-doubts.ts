import type { DoubtWords } from './doubt-words.ts';

/** Whether what is set side by side can be compared. */
export const comparisonDoubts = {
  'Like for like': {
    asks: 'Whether the groups compared are alike in role, lubricant, build, shop and duty.',
    so: 'Where they are not, the difference may be the work’s. Compare within one of each, or take the adjusted answer.',
  },
  'Not adjusted': {
    asks: 'Whether the question can take into account what the view asks it to.',
    so: 'Where it cannot, the answer stands as if it had not been asked. Hold the attribute fixed with a filter.',
  },
  'Taken into account': {
    asks: 'What a comparison holds alike, and which levels were put together because few failed.',
    so: 'Whatever is not named here is not held alike.',
  },
  'Common ground': {
    asks: 'Whether each side has lives like the other’s in the same shops and kinds.',
    so: 'Without it a ratio would compare shops or builds and is not given: nobody else does like work.',
  },
  'Other side': {
    asks: 'Whether the ratio is the same between unlike wheel ends of one axle, which share load, road and driver.',
    so: 'Where it disagrees, something of the vehicle or its work may be the whole of the ratio.',
  },
  'The same throughout': {
    asks: 'Whether the difference is the same at every age.',
    so: 'Where curves cross or the ratio changes, one number for all ages is true of none: read it by age.',
  },
  'Early and later': {
    asks: 'Whether the ratio up to the early age and the one after lie far apart.',
    so: 'Read both. A later ratio below 1 may be what is left once the weak have failed.',
  },
  'Many comparisons': {
    asks: 'How many were compared, how many would stand out by chance, and what is left once that is allowed for.',
    so: 'The largest of many differences is large partly by chance. What is lost by the correction is a suspicion to test in other records.',
  },
  'Many compared': {
    asks: 'How many shops were compared, and whether the farthest still stands once that is allowed for.',
    so: 'One of many lies farthest out by chance alone.',
  },
  'Chance alone': {
    asks: 'How often the whole ranking finds something with the deviations dealt out at random within shops.',
    so: 'Where that is often, the lines that stand may be chance: a few vehicles carry them.',
  },
  'Apart by chance': {
    asks: 'Whether all shops together lie farther apart than chance has them lie.',
    so: 'Where they do not, their order means nothing.',
  },
  'One shop alone': {
    asks: 'What the answer is with each shop left out in turn.',
    so: 'Where one moves it by a quarter, or turns it, the answer is about that shop.',
  },
  'One vehicle alone': {
    asks: 'What the answer is with each vehicle left out in turn.',
    so: 'Where one moves it by a quarter, or turns it, look at that vehicle first.',
  },
  'One vehicle': {
    asks: 'Whether one vehicle carries the difference of a shop.',
    so: 'Then it is that vehicle’s, not the shop’s.',
  },
  'One part of the work': {
    asks: 'Whether the difference of a shop lies in one role, lubricant, build or duty alone.',
    so: 'Then it is to be looked for there, not everywhere.',
  },
  'Fitted here, found there': {
    asks: 'Whether failures count for the shop that fitted the part or for the one that found them.',
    so: 'Counted where they are found, a shop that looks harder, or is sent the broken ones, looks worse.',
  },
  'Recorded alike': {
    asks: 'Whether some shops write far more of their deviations down than others.',
    so: 'Who writes less shows fewer, and less of its excess is accounted for.',
  },
  'Few expected yet': {
    asks: 'In which quarters of installation less than one failure is expected yet.',
    so: 'No trend can be read from these; they are too young.',
  },
  'Picked by the view': {
    asks: 'Whether the view shows only some of the shops.',
    so: 'One picked because it stands out cannot be judged as if it had been picked blindly: look at all.',
  },
  'Hidden differences': {
    asks: 'How strongly something nobody wrote down would have to go with both the deviation and failure to explain the ratio.',
    so: 'Where little is needed, ask the crews what else differs between such jobs, and write it down.',
  },
  'Safety-critical': {
    asks: 'Which deviations touch lock, torque or missing components, however few their failures.',
    so: 'They are changed on mechanism and a few teardowns. Every case is listed; too few for a ratio does not mean harmless.',
  },
  'Choice of rule': {
    asks: 'Whether the answer is the same under every defensible rule.',
    so: 'Where one choice turns it, say which choice was made and why, or ask for more records.',
  },
} as const satisfies Record<string, DoubtWords>;
