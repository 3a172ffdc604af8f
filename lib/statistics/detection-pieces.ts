import { StatisticsError } from './statistics-error.ts';
import { toCodes, toNumbers, type CategoryColumn, type Codes, type NumberColumn } from './survival-data.ts';

/** How a life's defect came to light: not at all, at the check with which the life ends, or between checks. */
export const FOUND = { not: 0, atCheck: 1, between: 2 } as const;

/** Lives watched from age 0 and what every check of them said. Ages in one unit. */
export interface DetectionData {
  /** Age at which the defect first came to light, else at which watching ended. */
  readonly exit: NumberColumn;
  /** 0 not found, 1 found by a check at `exit`, 2 found otherwise. */
  readonly found: NumberColumn;
  /** Checks before `exit` that saw nothing: place of the life, and the age. */
  readonly checkLife: NumberColumn;
  readonly checkAge: NumberColumn;
  /** By life, checks after it had come to light: those that saw it again and those that did not. */
  readonly seenAgain?: NumberColumn;
  readonly missedAgain?: NumberColumn;
  /** What lives share, such as the vehicle; gives `robust` limits. */
  readonly cluster?: CategoryColumn;
}

/** Stretches of each life between its checks, cut short enough for a defect to be taken as even within one. */
export interface DetectionPieces {
  readonly lives: number;
  readonly exit: Float64Array;
  readonly found: Uint8Array;
  /** Pieces of life i: from `first[i]` to before `first[i + 1]`. */
  readonly first: Int32Array;
  readonly from: Float64Array;
  readonly to: Float64Array;
  /** Checks that saw nothing after the piece. */
  readonly missed: Int32Array;
  readonly seenAgain: Float64Array;
  readonly missedAgain: Float64Array;
  readonly cluster: Codes | null;
  readonly checks: number;
}

/** Of the longest life, as the longest piece. */
const FINENESS = 40;

/** @throws StatisticsError naming the argument and row */
export function detectionPieces(data: DetectionData): DetectionPieces {
  const lives = data.exit.length;
  if (lives === 0) throw new StatisticsError('exit', 'has no rows');
  const exit = toNumbers('exit', data.exit, lives);
  const found = Uint8Array.from(toNumbers('found', data.found, lives));
  found.forEach((code, row) => {
    if (code > FOUND.between) throw new StatisticsError('found', `is ${code}, not 0, 1 or 2`, row);
  });
  let longest = 0;
  exit.forEach((age, row) => {
    if (!(age > 0)) throw new StatisticsError('exit', `${age} is not above 0`, row);
    longest = Math.max(longest, age);
  });
  const again = (name: 'seenAgain' | 'missedAgain') => {
    const column = data[name];
    return column ? toNumbers(name, column, lives) : new Float64Array(lives);
  };
  return {
    ...{ lives, exit, found },
    ...cut(exit, checksByLife(data, exit), longest / FINENESS),
    ...{ seenAgain: again('seenAgain'), missedAgain: again('missedAgain') },
    cluster: data.cluster ? toCodes('cluster', data.cluster, lives) : null,
    checks: data.checkAge.length,
  };
}

function checksByLife(data: DetectionData, exit: Float64Array): number[][] {
  const ages: number[][] = Array.from(exit, () => []);
  const [lives, at] = [
    toNumbers('checkLife', data.checkLife, data.checkAge.length),
    toNumbers('checkAge', data.checkAge, data.checkAge.length),
  ];
  for (let check = 0; check < at.length; check++) {
    const own = ages[lives[check] as number];
    const age = at[check] as number;
    if (!own) throw new StatisticsError('checkLife', `${lives[check]} is no place of a life`, check);
    if (!(age > 0 && age <= (exit[lives[check] as number] as number)))
      throw new StatisticsError('checkAge', `${age} is not within its life`, check);
    own.push(age);
  }
  for (const own of ages) own.sort((a, b) => a - b);
  return ages;
}

function cut(exit: Float64Array, checks: readonly (readonly number[])[], longest: number) {
  const [from, to, missed]: [number[], number[], number[]] = [[], [], []];
  const first = new Int32Array(exit.length + 1);
  checks.forEach((ages, life) => {
    let start = 0;
    for (let check = 0; check <= ages.length; check++) {
      const end = ages[check] ?? exit[life] ?? 0;
      const parts = Math.ceil((end - start) / longest);
      for (let part = 0; part < parts; part++) {
        from.push(start + ((end - start) * part) / parts);
        to.push(start + ((end - start) * (part + 1)) / parts);
        missed.push(ages.length - check);
      }
      start = end;
    }
    first[life + 1] = from.length;
  });
  return { first, from: Float64Array.from(from), to: Float64Array.from(to), missed: Int32Array.from(missed) };
}
