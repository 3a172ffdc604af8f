import type { DetectionEvidence } from '../detection/detection-evidence.ts';
import { ended } from '../life-rows.ts';

/** The lives as one rule reads them; columns of equal length. */
export interface Reading {
  readonly rule: string;
  /** Places in the evidence's lives. */
  readonly places: Int32Array;
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly event: Uint8Array;
}

interface Life {
  readonly entry: number;
  readonly exit: number;
  readonly event: 0 | 1;
}
/** What a rule makes of a life: another end, none of it (`out`), or nothing (null). */
type Change = (place: number, life: Life) => Partial<Life> | 'out' | null;

export interface RuleEvidence {
  readonly evidence: DetectionEvidence;
  /** Places in the lives table of lives renewed with their failed mate; null where no records tell. */
  readonly mates: ReadonlySet<number> | null;
  /** First outcome of any mode by place in the lives, Infinity where none; null where none compete. */
  readonly anyFailure: Float64Array | null;
  /** The least that an age can be known by. */
  readonly step: number;
}

/** As the records are read: the rule every other is held against. */
export const asRead = 'as the records are read';

/** Every defensible reading of the same lives; those the records cannot tell apart are left out. */
export function readings(given: RuleEvidence): Reading[] {
  const { evidence } = given;
  const read = (rule: string, change: Change): Reading => reading(evidence, evidence.aged, rule, change);
  return [
    read(asRead, () => null),
    ...failureRules(given).map(([rule, change]) => read(rule, change)),
    ...renewalRules(given).map(([rule, change]) => read(rule, change)),
    unknownStartsIn(evidence),
    ...milesRules(given).map(([rule, change]) => read(rule, change)),
    ...onsetRules(given).map(([rule, change]) => read(rule, change)),
  ];
}

type Rule = readonly [string, Change];

function failureRules({ evidence: { lives }, anyFailure }: RuleEvidence): Rule[] {
  const seen = lives.seenLeak;
  return [
    ['only failures with a report of their own', (place) => (lives.inferred[place] === 1 ? { event: 0 } : null)],
    ...(seen.some((age) => !Number.isNaN(age))
      ? [
          [
            'wet leaks that only a check saw are failures then',
            (place: number, { entry, exit }: Life) => {
              const age = seen[place] as number;
              return age > entry ? { event: 1, exit: Math.min(age, exit) } : null;
            },
          ] as Rule,
        ]
      : []),
    ...(anyFailure
      ? [
          [
            'any failure at the wheel end counts',
            (place: number, { entry, exit }: Life) => {
              const age = anyFailure[place] as number;
              return age > entry && age <= exit ? { event: 1, exit: age } : null;
            },
          ] as Rule,
        ]
      : []),
  ];
}

function renewalRules({ evidence: { lives, checks, rows }, mates }: RuleEvidence): Rule[] {
  const renewed = (place: number) => lives.ended[place] === ended.renewed;
  const leaked = (place: number): boolean => {
    if (!checks) return false;
    const own = checks.seen.subarray(checks.first[place], checks.first[place + 1]);
    return own.includes(1);
  };
  const isMate = (place: number) => renewed(place) && (mates?.has(rows[place] as number) ?? false);
  return [
    ...(checks?.seen.includes(1)
      ? [
          [
            'planned removals after a leak was seen are failures',
            (place: number) => (renewed(place) && leaked(place) ? { event: 1 } : null),
          ] as Rule,
        ]
      : []),
    [
      'removals for reasons not known are failures',
      (place) => (lives.ended[place] === ended.removedUnknown ? { event: 1 } : null),
    ],
    ...(mates
      ? [['renewals with a failed mate are left out', (place: number) => (isMate(place) ? 'out' : null)] as Rule]
      : []),
  ];
}

function milesRules({ evidence: { lives } }: RuleEvidence): Rule[] {
  return [
    ['miles carried beyond readings left out', (place) => (lives.extrapolated[place] === 1 ? 'out' : null)],
    ['all estimated miles left out', (place) => (lives.estimated[place] === 1 ? 'out' : null)],
  ];
}

/** A leak that began after the last dry check and by the day it was found, put at the middle, or as early as can be. */
function onsetRules({ evidence: { lives }, step }: RuleEvidence): Rule[] {
  const told = (place: number) => !Number.isNaN(lives.onsetLower[place]);
  const at = (share: number): Change => {
    return (place, { entry, exit, event }) => {
      if (!told(place)) return 'out';
      const dry = Math.max(lives.onsetLower[place] as number, entry);
      if (event === 1) return { exit: Math.min(exit, Math.max(dry + share * (exit - dry), entry + step)) };
      return dry > entry ? { exit: Math.min(dry, exit) } : 'out';
    };
  };
  return lives.onsetLower.some((age) => !Number.isNaN(age))
    ? [
        ['leaks begin halfway from the last dry check to finding', at(0.5)],
        ['leaks begin right after the last dry check', at(0)],
      ]
    : [];
}

/** Lives of unknown start are counted from the first mile watched: their age is then too young. */
function unknownStartsIn(evidence: DetectionEvidence): Reading {
  const { lives } = evidence;
  const places = Int32Array.from(
    Array.from({ length: lives.rows }, (_, place) => place).filter((place) => (lives.exposure[place] as number) > 0),
  );
  return reading(evidence, places, 'unknown starts in, from the first mile watched', (place) =>
    Number.isNaN(lives.entry[place]) ? { entry: 0, exit: lives.exposure[place] as number } : null,
  );
}

function reading({ lives }: DetectionEvidence, places: Int32Array, rule: string, change: Change): Reading {
  const [kept, entry, exit, event]: [number[], number[], number[], number[]] = [[], [], [], []];
  for (const place of places) {
    const life: Life = {
      ...{ entry: lives.entry[place] as number, exit: lives.exit[place] as number },
      event: lives.ended[place] === ended.failed ? 1 : 0,
    };
    const changed = change(place, life);
    if (changed === 'out') continue;
    const read = { ...life, ...changed };
    if (!(read.exit > read.entry)) continue;
    kept.push(place);
    entry.push(read.entry);
    exit.push(read.exit);
    event.push(read.event);
  }
  return {
    ...{ rule, places: Int32Array.from(kept), event: Uint8Array.from(event) },
    ...{ entry: Float64Array.from(entry), exit: Float64Array.from(exit) },
  };
}
