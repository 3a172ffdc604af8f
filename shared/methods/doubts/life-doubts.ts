import type { DoubtWords } from './doubt-words.ts';

/** How lives were watched, and how they are told. */
export const lifeDoubts = {
  'Few failures': {
    asks: 'Whether each group has fifteen failures or more.',
    so: 'Under fifteen an answer is thin; under five counts and bounds are shown and nothing is compared.',
  },
  'Found late': {
    asks: 'What the answer would be had each leak begun right after its last clean check.',
    so: 'A leak is found when somebody looks. Who looks less often sees longer lives, from the looking alone.',
  },
  'Grease hides leaks': {
    asks: 'What would be told had the last dry check of each greased wheel end missed the leak.',
    so: 'Semi-fluid and packed hubs leak where it is not seen from outside. Where that turns the answer, look behind the wheel.',
  },
  'Looked at unalike': {
    asks: 'Whether some groups are checked half as often again as others over the same distance.',
    so: 'Where nobody looks, leaks are found later or not at all: compare when leaks began, not when they were found.',
  },
  'Looked at alike': {
    asks: 'Whether wheel ends fitted by one shop are checked twice as often as those fitted by another.',
    so: 'The shop whose work is looked at harder looks worse.',
  },
  'Chance a check sees': {
    asks: 'Whether the chance that one check sees a leak is borne out by checks made after a leak was seen.',
    so: 'Where the two do not agree, leaks were put right with nothing written down, or checks are not all alike.',
  },
  'Found, not begun': {
    asks: 'Said of every forecast: expected are leaks found at today’s looking.',
    so: 'Some are there and not found. A closer look finds more, and sooner, and is no worsening.',
  },
  'As far as the horizon': {
    asks: 'Whether enough lives are still watched at the horizon.',
    so: 'Short of it nothing is told there; with few left the number rests on them. Ask of a shorter horizon.',
  },
  'Watched to the horizon': {
    asks: 'How many lives are of shops that were watched to the horizon.',
    so: 'The others are in the count of a year alone.',
  },
  'Beyond what was watched': {
    asks: 'How much of the number lies at ages that hardly any life reached.',
    so: 'There the fitted shape alone tells, and nothing in the records can say whether it is right.',
  },
  'One shape': {
    asks: 'Whether one Weibull line tells the lives, or early failures and wear-out lie mixed.',
    so: 'A line through a bend is true of neither end: read the curve, not the line.',
  },
  'Early failures or one shape': {
    asks: 'What the plan would be under one shape where two are called for.',
    so: 'Where it turns, the few early failures decide when to renew.',
  },
  'Wheel ends of one vehicle': {
    asks: 'How far the wheel ends of one vehicle fail together.',
    so: 'They share driver, load and road, so they tell less than as many of as many vehicles. The limits allow for it where there are vehicles enough.',
  },
  'The same wheel ends': {
    asks: 'Said of every question about repeats: a wheel end that failed once may be one that is worked harder, or worn at the spindle.',
    so: 'That it fails again need not lie in the repair.',
  },
  'Groups like their kind': {
    asks: 'Whether each group has failed so far as lives of its kind do.',
    so: 'The forecast takes every group for the average of its kinds, and is off where a group is unlike them.',
  },
  'Miles ahead': {
    asks: 'How many wheel ends have no pace of their own to turn months into miles.',
    so: 'They take the median of the others. A change of work ahead is not known.',
  },
  'Not seen lately': {
    asks: 'How many running lives were last seen long before the records end.',
    so: 'They may be out of service, or older than told.',
  },
  'Renewed or fitted ahead': {
    asks: 'Said of every forecast: it is of the parts running now, had none been renewed.',
    so: 'Planned renewals take some away, and what is fitted ahead may fail early and is not counted.',
  },
  'Renewed on sight': {
    asks: 'Said of every plan of renewal: nobody wrote down whether parts were renewed because they looked worn.',
    so: 'Where they were, wear sets in sooner than told.',
  },
  'Left out': {
    asks: 'Which lives a question leaves out by rule, and how many.',
    so: 'None goes silently. Lives that no job in the records began cannot be told by their installation.',
  },
  'First look': {
    asks: 'Said while a long ranking is under way: this is of whole vehicles drawn at random.',
    so: 'The ranking over all takes its place when it is done.',
  },
} as const satisfies Record<string, DoubtWords>;
