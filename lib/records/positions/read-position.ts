import type { PositionSettings } from '../../../shared/column-map.ts';
import { axlesMeant } from './axle-choice.ts';
import { piecesOf, positionTokens, type PositionToken } from './position-tokens.ts';
import type { Meaning } from './spellings.ts';

export type Side = 'left' | 'right';
export interface Position {
  /** 1 = front-most axle of the unit. */
  readonly axle: number;
  readonly side: Side;
}

/** A position, or why the spelling gives none. */
export type PositionReading = Position | string;

export const acceptedPosition =
  'an axle that the unit has and a side, such as "axle 3 left", "2nd drive right" or "LF"; or a rule for this spelling in the column map';

/**
 * Reads where on a unit a row was, from a spelling of the trade (`LF`, `RR2`, `Axle 3 LH`, `T1R` …).
 * Every way to read it is tried on the unit's axles: one answer is the position, several or none
 * are a reason, and nothing is guessed.
 * @param side text of a column that says nothing but the side, if there is one
 * @param roles of the unit's axles, front to rear; null where the unit is not known: numbers only are read then
 */
export function readPosition(
  text: string,
  side: string | null,
  roles: readonly string[] | null,
  settings: PositionSettings,
): PositionReading {
  const ruled = byRule(text, side, roles, settings);
  if (ruled !== null) return ruled;
  const tokens = [...positionTokens(text, false), ...positionTokens(side ?? '', true)];
  const unknown = tokens.flatMap((token) => (token.kind === 'unknown' ? [token.text] : []));
  if (unknown.length > 0) return `"${unknown.join(' ')}" is no word for a place on a vehicle that is known here`;
  if (tokens.length === 0) return 'says no place';
  const numbers = tokens.filter((token) => token.kind === 'number');
  if (numbers.length > 1) return 'has several numbers, and does not say which is the axle';
  return oneOf(
    waysToRead(tokens).map((way) => outcomeOf(way, tokens, roles, settings)),
    roles,
  );
}

/** All positions that a spelling may mean on a unit, where it says too little by itself. */
export function positionChoices(
  text: string,
  side: string | null,
  roles: readonly string[],
  settings: PositionSettings,
): Position[] {
  const tokens = [...positionTokens(text, false), ...positionTokens(side ?? '', true)];
  const outcomes = waysToRead(tokens).map((way) => outcomeOf(way, tokens, roles, settings));
  return positionsOf(outcomes.filter(({ weak }) => !weak));
}

const withUnit = (roles: readonly string[]): string => `a unit with the axles ${roles.join(', ')}`;

function byRule(
  text: string,
  side: string | null,
  roles: readonly string[] | null,
  { rules = [] }: PositionSettings,
): PositionReading | null {
  if (rules.length === 0) return null;
  const spelling = piecesOf(`${text} ${side ?? ''}`).join(' ');
  const rule = rules.find(
    (rule) =>
      piecesOf(rule.spelling).join(' ') === spelling && (rule.roles === undefined || rule.roles === roles?.join(' ')),
  );
  if (!rule) return null;
  if (roles !== null && rule.axle > roles.length)
    return `stands by a rule for axle ${rule.axle}, and ${withUnit(roles)} has none`;
  return { axle: rule.axle, side: rule.side };
}

interface Way {
  readonly says: readonly (readonly Meaning[])[];
  readonly weak: boolean;
}

/** Every choice among the readings of the words; the meanings stand at the place of their token. */
function waysToRead(tokens: readonly PositionToken[]): Way[] {
  let ways: Way[] = [{ says: [], weak: false }];
  for (const token of tokens) {
    const readings = token.kind === 'word' ? token.readings : [{ says: [], weak: false }];
    ways = ways.flatMap((way) =>
      readings.map(({ says, weak }) => ({ says: [...way.says, says], weak: way.weak || weak })),
    );
    // Words of a sentence, not of a position.
    if (ways.length > 64) return [];
  }
  return ways;
}

interface Outcome {
  readonly axles: readonly number[];
  readonly sides: readonly Side[];
  readonly both: boolean;
  /** Why this way gives nothing, or null. */
  readonly lacks: string | null;
  readonly weak: boolean;
  /** Whether it might give something if the unit were known. */
  readonly wantsUnit?: boolean;
}

function outcomeOf(
  { says, weak }: Way,
  tokens: readonly PositionToken[],
  roles: readonly string[] | null,
  settings: PositionSettings,
): Outcome {
  const words = new Set(says.flat());
  const both = words.has('both');
  const none = (lacks: string): Outcome => ({ axles: [], sides: [], lacks, weak, both });
  if (words.has('elsewhere')) return { ...none(''), sides: ['left', 'right'], lacks: null };
  const sides = sidesSaid(words, settings);
  if (typeof sides === 'string') return none(sides);
  const at = tokens.findIndex(({ kind }) => kind === 'number');
  const token = tokens[at];
  const number = token?.kind === 'number' ? token.value : null;
  const counts = token?.kind === 'number' ? whatCounts(says, at, token.ordinal) : 'unit';
  if (roles === null) {
    const bare = [...words].every((word) => word === 'axle' || word === 'left' || word === 'right' || sideOf(word));
    const wanting = (said: string): Outcome => ({
      ...none(`${said}, and the unit is not in the units table`),
      wantsUnit: true,
    });
    if (!bare || number === null) return wanting('names an axle by its role or place');
    if (settings.axlesAhead !== undefined) return wanting('counts axles through the combination');
    return { axles: number >= 1 && number <= 20 ? [number] : [], sides, lacks: null, weak, both };
  }
  const axles = axlesMeant({ words, number, counts }, roles, settings.axlesAhead ?? 0);
  if (axles === null) return none('names no axle');
  if (axles.length === 0) return none(`names an axle that ${withUnit(roles)} does not have`);
  return { axles, sides, lacks: null, weak, both };
}

const bothSides = 'names both sides; one row is one wheel end';

const sideOf = (word: Meaning): boolean => word === 'driver' || word === 'curb';

/** The one side said, none (both are open), or why there can be none. */
function sidesSaid(words: ReadonlySet<Meaning>, { driverSits }: PositionSettings): Side[] | string {
  const said = new Set<Side>();
  if (words.has('left')) said.add('left');
  if (words.has('right')) said.add('right');
  if (words.has('driver') || words.has('curb')) {
    if (driverSits === undefined && said.size === 0)
      return 'names a side by the driver or the curb, and the map does not say where the driver sits';
    const other = driverSits === 'left' ? 'right' : 'left';
    if (driverSits !== undefined && words.has('driver')) said.add(driverSits);
    if (driverSits !== undefined && words.has('curb')) said.add(other);
  }
  if (said.size > 1) return bothSides;
  return said.size === 1 ? [...said] : ['left', 'right'];
}

const grouping: ReadonlySet<Meaning> = new Set([
  'steer',
  'drive',
  'tag',
  'pusher',
  'lift',
  'trailer',
  'tandem',
  'front',
  'rear',
  'middle',
]);

/** `2nd drive` and `drive 2` count drives, `axle 3 drive` counts axles, `drive axle 2` and `2 drive` may do either. */
function whatCounts(says: readonly (readonly Meaning[])[], at: number, ordinal: boolean): 'unit' | 'group' | 'either' {
  const grouped = (words: readonly Meaning[]) => words.some((word) => grouping.has(word));
  const before = says.slice(0, at).filter((words) => words.length > 0);
  const named = before.some(grouped);
  const last = before.at(-1);
  if (ordinal) return 'group';
  if (last?.at(-1) === 'axle') return named ? 'either' : 'unit';
  return named ? 'group' : 'either';
}

/** What all ways come to: one position, or why not. */
function oneOf(outcomes: readonly Outcome[], roles: readonly string[] | null): PositionReading {
  const whole = outcomes.filter(({ axles, sides, weak }) => !weak && axles.length > 0 && sides.length > 0);
  const strong = positionsOf(whole);
  const weak = positionsOf(
    outcomes.filter((outcome) => outcome.weak && outcome.axles.length === 1 && outcome.sides.length === 1),
  );
  const elsewhere = outcomes.some(({ axles, sides, weak }) => !weak && axles.length === 0 && sides.length > 0);
  const wanting = outcomes.find(({ wantsUnit, weak }) => wantsUnit === true && !weak);
  // What the letters hardly ever mean is no answer while what they do mean cannot be tried.
  if (strong.length === 0 && wanting?.lacks) return wanting.lacks;
  const found = strong.length > 0 ? strong : weak;
  const [only] = found;
  if (only && found.length === 1 && !elsewhere) return only;
  if (only && outcomes.some(({ both, axles }) => both && axles.length > 0)) return bothSides;
  if (only) return ambiguity(found, elsewhere, roles);
  return outcomes.find(({ lacks, weak }) => lacks !== null && !weak)?.lacks ?? 'names no place on a vehicle';
}

function positionsOf(outcomes: readonly Outcome[]): Position[] {
  const found = new Map<string, Position>();
  for (const { axles, sides } of outcomes)
    for (const axle of axles) for (const side of sides) found.set(`${axle} ${side}`, { axle, side });
  return [...found.values()].sort((a, b) => a.axle - b.axle || (a.side < b.side ? -1 : 1));
}

function ambiguity(found: readonly Position[], elsewhere: boolean, roles: readonly string[] | null): string {
  const axles = new Set(found.map(({ axle }) => axle));
  const sides = new Set(found.map(({ side }) => side));
  if (axles.size === 1 && sides.size === 2 && !elsewhere) return 'is ambiguous: it does not say which side';
  const choice = found.map(({ axle, side }) => `axle ${axle} ${side}`);
  const where = roles === null ? '' : ` on ${withUnit(roles)}`;
  if (elsewhere) return `is ambiguous: ${choice.join(' or ')}${where}, or another part of the vehicle`;
  return `is ambiguous: it could be ${choice.join(' or ')}${where}`;
}
