import { askedLives } from '../columns/asked-lives.ts';
import type { Asking } from '../asking.ts';
import { hasAge } from '../curve-rows.ts';
import { gather, placesWhere } from '../gather.ts';
import type { GroupKeys } from '../group-keys.ts';
import type { GroupLives } from '../life-estimates.ts';
import { ended, lifeRows, type LifeRows } from '../life-rows.ts';
import { lifeConsequences, consequencesOf, type Consequences } from '../fitted/consequences.ts';
import { scopeOf, type LeftOut } from '../scope.ts';
import { procedureIntervals } from './procedure-intervals.ts';

/** What one group's renewal is planned on. */
export interface RenewalLives {
  /** Places, among `lives`, of replacements of known start that were watched. */
  readonly places: Int32Array;
  readonly fitted: GroupLives;
  readonly failures: number;
  readonly consequences: Consequences;
  /** The procedure's renewals, in miles, and how many of the lives each governs; most first. */
  readonly intervals: readonly { readonly miles: number; readonly lives: number }[];
}

export interface RenewalEvidence {
  readonly keys: GroupKeys;
  readonly lives: LifeRows;
  readonly groups: readonly RenewalLives[];
  /** Of all groups together. */
  readonly consequences: Consequences;
  readonly leftOut: LeftOut;
  /** Lives of unknown start, in all groups. */
  readonly unknownStart: number;
  /** False where no procedure stands behind the lives. */
  readonly procedureKnown: boolean;
}

/** A planned renewal fits a replacement: parts a vehicle came with tell nothing of how long that lasts. */
export async function renewalEvidence(asking: Asking): Promise<RenewalEvidence> {
  const { source, view, signal } = asking;
  const asked = askedLives(source, view.component);
  const scope = await scopeOf(asking, asked);
  const lives = await lifeRows(asking, asked, scope);
  const columns = await asked.columns(signal);
  const replacement = (place: number) => columns.replacement[scope.rows[place] as number] === 1;
  const told = await lifeConsequences(asking, columns.rows);
  const intervalOf = await procedureIntervals(asking);
  const [builds, roles] = [await asked.cut('hub_build', signal), await asked.cut('role', signal)];
  const intervalAt = (place: number): number | null => {
    const row = scope.rows[place] as number;
    const label = ({ levels, codes }: typeof builds) => levels[codes[row] as number] as string;
    return intervalOf?.(label(builds), label(roles)) ?? null;
  };
  const failedOf = (places: Int32Array) =>
    gather(
      scope.rows,
      places.filter((place) => lives.ended[place] === ended.failed),
    );
  const usable = placesWhere(lives.rows, (place) => replacement(place) && hasAge(lives, place));
  const groups = scope.keys.groups.map((_, group): RenewalLives => {
    const places = usable.filter((place) => lives.group[place] === group);
    const event = gather(lives.ended, places).map((code) => (code === ended.failed ? 1 : 0));
    return {
      places,
      fitted: {
        ...{ entry: gather(lives.entry, places), exit: gather(lives.exit, places), event },
        cluster: gather(lives.unit, places),
      },
      failures: event.reduce((sum, one) => sum + one, 0),
      consequences: consequencesOf(told, failedOf(places)),
      intervals: tallied(Array.from(places, intervalAt)),
    };
  });
  const originals = placesWhere(lives.rows, (place) => !replacement(place)).length;
  return {
    ...{ keys: scope.keys, lives, groups, consequences: consequencesOf(told, failedOf(usable)) },
    leftOut: { ...scope.leftOut, notReplacement: scope.leftOut.notReplacement + originals },
    unknownStart: placesWhere(lives.rows, (place) => replacement(place) && Number.isNaN(lives.entry[place])).length,
    procedureKnown: intervalOf !== null,
  };
}

function tallied(intervals: readonly (number | null)[]): RenewalLives['intervals'] {
  const counts = new Map<number, number>();
  for (const miles of intervals) if (miles !== null) counts.set(miles, (counts.get(miles) ?? 0) + 1);
  return [...counts].map(([miles, lives]) => ({ miles, lives })).sort((a, b) => b.lives - a.lives || a.miles - b.miles);
}
