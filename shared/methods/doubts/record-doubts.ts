import type { DoubtWords } from './doubt-words.ts';

/** What was written down, and what was not. */
export const recordDoubts = {
  'Rows set aside': {
    asks: 'How many rows of the files could not be used. It stands where they are more than a few in a hundred.',
    so: 'Lives may be missing or run on past a failure that sits in a row set aside. The list names file, row and reason: put right what comes up often.',
  },
  'Estimated miles': {
    asks: 'How many lives stand on miles that were worked out beyond the readings of their vehicle.',
    so: 'Ages are then off by what the vehicle really ran. Months have no such doubt.',
  },
  'Estimated lives left out': {
    asks: 'What the answer is without the lives whose miles are estimated.',
    so: 'Where it moves, the estimates carry it: ask by months, or bring in readings.',
  },
  'Failures without a failure row': {
    asks: 'How many failures are told only by the reason of a service, with no failure record of their own.',
    so: 'What failed and when it was found is then taken from the repair.',
  },
  'Failures not placed': {
    asks: 'How many failures name no wheel end that a life can be found for.',
    so: 'They are in no life: how often parts fail is told too low, and unevenly where one shop writes positions worse.',
  },
  'Unknown starts': {
    asks: 'How many lives have no known installation, as the part was there before the records began.',
    so: 'Their age is not known, so they stand in no curve by age; counted by miles watched they stand in the rates.',
  },
  'Late entries': {
    asks: 'How many lives began before the records and are counted only from the age at which they were first seen.',
    so: 'The young ages then rest on few lives, and a curve may have to start late. Counted from new they would make parts look better than they are, as those that failed young were never seen.',
  },
  'Removed for no stated reason': {
    asks: 'What the answer would be had every part failed that came off with no reason written down.',
    so: 'They count as not failed. Where that bound leaves the limits, the missing reasons decide the answer.',
  },
  'Leaks seen, no failure written down': {
    asks: 'What the answer would be had every leak that an inspection saw been a failure then.',
    so: 'A leak that nobody repaired fails no life here. Where the bound leaves the limits, find out what became of them.',
  },
  'Lining not told': {
    asks: 'How many leaks say nothing of the lining, and the share had none or all of them reached it.',
    so: 'Who writes the lining down only when it is soaked makes the share too high.',
  },
  'Never recorded': {
    asks: 'Which deviations no life carries.',
    so: 'Not recorded is not the same as not done: nothing can be said of them.',
  },
  'Not known': {
    asks: 'What the ratio would be had all lives had the deviation of which it is not known, and had none.',
    so: 'Who leaves the box empty is seldom like who fills it. Where either reading would halve the ratio, or most of the record is silent, it cannot be firm.',
  },
  'Rounded readings': {
    asks: 'Whether readings heap at one value, most of all at the middle of the window.',
    so: 'A nominal written down hides what was there, and differences by the value look smaller than they are.',
  },
  'Not measured': {
    asks: 'How many jobs wrote no value down.',
    so: 'Jobs that measure may differ from those that do not: what is told is of those that measure.',
  },
  'Shop not known': {
    asks: 'How many lives name no shop that fitted them.',
    so: 'They are in the average and in no shop. Where one shop leaves its name out, its own failures are hidden.',
  },
  'Place not known': {
    asks: 'How many lives do not say whether a shop, a vendor or the roadside fitted them.',
    so: 'They are in the average and in no place.',
  },
  'Consequences not told': {
    asks: 'Which failures do not say whether the lining was soaked, or who found them, and what the plan is had none or all.',
    so: 'What a failure costs hangs on it. Where the plan turns, write both down with every failure.',
  },
  'Records still arriving': {
    asks: 'Whether failures of the last weeks may not be in the records yet.',
    so: 'The newest lives look better than they are. Lives are followed only so far, or it is said that this could not be done.',
  },
  'Written down alike': {
    asks: 'Whether deviations are written down as fully after the change as before.',
    so: 'A new sheet makes people write more, or less: deviations then seem to move while the work does not.',
  },
  'Nothing before': {
    asks: 'How many lives follow none in these records, so that it is not known whether they follow a repair.',
    so: 'They stand in neither group. Records that reach further back would place them.',
  },
} as const satisfies Record<string, DoubtWords>;
