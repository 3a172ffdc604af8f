import { components } from '../../shared/vocabulary.ts';
import type { View } from '../../shared/view.ts';
import type { Asking } from './asking.ts';
import type { AskedLives } from './columns/asked-lives.ts';
import { lining, type EpisodeColumns } from './columns/episode-columns.ts';
import { modeCode, states, type LifeColumns } from './columns/life-columns.ts';
import { PairPlaces } from './pair-places.ts';
import type { Scope } from './scope.ts';

/** What is summed; the first seven are counts of failure episodes. */
export const tallyNames = [
  'failures',
  'contaminated',
  'liningUnknown',
  'leaksSoaked',
  'leaksClean',
  'leaksUnknown',
  'inferred',
  'lives',
  'miles',
  'months',
  'unknownStart',
  'unknownStartMiles',
  'estimated',
  'estimatedMiles',
  'estimatedFailures',
  'estimatedContaminated',
  'removedUnknown',
] as const;
export type TallyName = (typeof tallyNames)[number];
type Sums = Readonly<Record<TallyName, Float64Array>>;

/** Counts and miles of each vehicle (or shop) within each group; columns of equal length. */
export interface Tally {
  readonly rows: number;
  readonly group: Int32Array;
  /** Code of the vehicle or shop. */
  readonly by: Int32Array;
  readonly columns: Sums;
}

const sealModes = new Set(components.seal.modes.map(modeCode));

/** Episodes counted: of every mode, or of the one asked for. */
export const countsEpisode = (view: View, { mode }: EpisodeColumns): ((episode: number) => boolean) => {
  const wanted = view.mode === null ? null : modeCode(view.mode);
  return (episode) => wanted === null || mode[episode] === wanted;
};

function addLife(sums: Sums, place: number, columns: LifeColumns, row: number): void {
  const miles = columns.exposure[row] as number;
  add(sums.lives, place, 1);
  add(sums.miles, place, miles);
  add(sums.months, place, columns.months.exposure[row] as number);
  if (Number.isNaN(columns.entry[row])) {
    add(sums.unknownStart, place, 1);
    add(sums.unknownStartMiles, place, miles);
  }
  if (columns.estimated[row] === 1) add(sums.estimated, place, 1);
  if (columns.extrapolated[row] === 1) add(sums.estimatedMiles, place, miles);
  if (columns.state[row] === states.removedUnknown) add(sums.removedUnknown, place, 1);
}

function addEpisode(sums: Sums, place: number, episodes: EpisodeColumns, episode: number, estimated: boolean): void {
  const said = episodes.lining[episode];
  add(sums.failures, place, 1);
  if (episodes.inferred[episode] === 1) add(sums.inferred, place, 1);
  if (said === lining.soaked) add(sums.contaminated, place, 1);
  if (estimated) add(sums.estimatedFailures, place, 1);
  if (estimated && said === lining.soaked) add(sums.estimatedContaminated, place, 1);
  if (said === lining.unknown) add(sums.liningUnknown, place, 1);
  if (!sealModes.has(episodes.mode[episode] as number)) return;
  const leaks = said === lining.soaked ? sums.leaksSoaked : said === lining.clean ? sums.leaksClean : sums.leaksUnknown;
  add(leaks, place, 1);
}

function add(sum: Float64Array, place: number, value: number): void {
  sum[place] = (sum[place] as number) + value;
}

const sumsOf = (of: (name: TallyName) => Float64Array): Sums =>
  Object.fromEntries(tallyNames.map((name) => [name, of(name)])) as Sums;

/** Sums of the lives in scope and of the episodes found in their exposure, by a cut column within groups. */
export async function tallyBy(
  column: string,
  { view, signal }: Asking,
  lives: AskedLives,
  scope: Scope,
): Promise<Tally> {
  const columns = await lives.columns(signal);
  const episodes = await lives.episodes(signal);
  const { levels, codes } = await lives.cut(column, signal);
  const size = scope.rows.length;
  const places = new PairPlaces(scope.keys.groups.length, levels.length);
  const sums = sumsOf(() => new Float64Array(size));
  const [group, by] = [new Int32Array(size), new Int32Array(size)];
  const placeOf = new Int32Array(columns.rows).fill(-1);
  for (let at = 0; at < size; at++) {
    const row = scope.rows[at] as number;
    const place = places.place(scope.group[at] as number, codes[row] as number);
    group[place] = scope.group[at] as number;
    by[place] = codes[row] as number;
    placeOf[row] = place;
    addLife(sums, place, columns, row);
  }
  const counts = countsEpisode(view, episodes);
  for (let episode = 0; episode < episodes.rows; episode++) {
    const row = episodes.life[episode] as number;
    const place = row < 0 ? -1 : (placeOf[row] as number);
    if (place >= 0 && counts(episode)) addEpisode(sums, place, episodes, episode, columns.extrapolated[row] === 1);
  }
  const { pairs } = places;
  return {
    ...{ rows: pairs, group: group.subarray(0, pairs), by: by.subarray(0, pairs) },
    columns: sumsOf((name) => sums[name].subarray(0, pairs)),
  };
}

/** The rows of each group. */
export function rowsByGroup({ rows, group }: Tally, groups: number): Int32Array[] {
  const sizes = new Int32Array(groups);
  for (let row = 0; row < rows; row++) sizes[group[row] as number] = (sizes[group[row] as number] as number) + 1;
  const byGroup = Array.from(sizes, (size) => new Int32Array(size));
  for (let row = rows - 1; row >= 0; row--) {
    const left = (sizes[group[row] as number] = (sizes[group[row] as number] as number) - 1);
    (byGroup[group[row] as number] as Int32Array)[left] = row;
  }
  return byGroup;
}

/** Sum of a column by group. */
export function sumByGroup(tally: Tally, name: TallyName, groups: number): Float64Array {
  const sums = new Float64Array(groups);
  tally.columns[name].forEach((value, row) => {
    const group = tally.group[row] as number;
    sums[group] = (sums[group] as number) + value;
  });
  return sums;
}
