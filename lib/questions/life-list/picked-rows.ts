import type { Found, LivesPick } from '../../../shared/lives-pick.ts';
import { components, lifeStates } from '../../../shared/vocabulary.ts';
import type { View } from '../../../shared/view.ts';
import { lining, type EpisodeColumns } from '../columns/episode-columns.ts';
import { agesOf, modeCode } from '../columns/life-columns.ts';
import { countsEpisode } from '../tally.ts';
import type { ListColumns } from './list-columns.ts';

/** The lives picked of those in a view, in the order of the lives table, and the failure episodes found in them. */
export interface Picked {
  readonly rows: Int32Array;
  /** Episodes counted, of the kind asked for; 0 where none was asked for. */
  readonly episodes: number;
}

const sealModes = new Set(components.seal.modes.map(modeCode));
const says: Readonly<Record<Exclude<Found, 'failure'>, number>> = {
  soaked: lining.soaked,
  'leak-soaked': lining.soaked,
  'leak-clean': lining.clean,
  'leak-unknown': lining.unknown,
};

function isFound(found: Found, view: View, episodes: EpisodeColumns): (episode: number) => boolean {
  const counts = countsEpisode(view, episodes);
  if (found === 'failure') return counts;
  const leak = found.startsWith('leak');
  return (episode) =>
    counts(episode) &&
    episodes.lining[episode] === says[found] &&
    (!leak || sealModes.has(episodes.mode[episode] as number));
}

/** Episodes of the kind asked for, by life. */
function foundByLife(found: Found, view: View, episodes: EpisodeColumns, lives: number): Uint16Array {
  const counts = new Uint16Array(lives);
  const wanted = isFound(found, view, episodes);
  for (let episode = 0; episode < episodes.rows; episode++) {
    const life = episodes.life[episode] as number;
    if (life >= 0 && wanted(episode)) counts[life] = (counts[life] as number) + 1;
  }
  return counts;
}

type Test = (row: number) => boolean;

function endedTest({ ended }: LivesPick, view: View, { state, life }: ListColumns): Test[] {
  if (ended.length === 0) return [];
  const wanted = lifeStates.map((name) => ended.includes(name));
  const failed = lifeStates.indexOf('failed');
  const mode = view.mode === null ? null : modeCode(view.mode);
  return [
    (row) => {
      const code = state[row] as number;
      return wanted[code] === true && (mode === null || code !== failed || life.mode[row] === mode);
    },
  ];
}

/** Known start, some of it watched, and watched beyond the age: the lives behind a curve that starts there. */
function pastTest({ past }: LivesPick, { axis }: View, { life }: ListColumns): Test[] {
  const { entry, exit } = agesOf(life, axis);
  return past === null ? [] : [(row) => (exit[row] as number) > (entry[row] as number) && (exit[row] as number) > past];
}

/** At risk at an age: watched before it (new ones from 0), from where a curve starts, and not gone before it. */
function atTest({ at, past }: LivesPick, { axis }: View, { life }: ListColumns): Test[] {
  const { entry, exit } = agesOf(life, axis);
  return at === null
    ? []
    : [
        (row) => {
          const from = Math.max(entry[row] as number, past ?? 0);
          return (from < at || from === 0) && (exit[row] as number) >= at;
        },
      ];
}

function vehicleTest({ vehicle }: LivesPick, { cuts }: ListColumns): Test[] {
  const sought = vehicle.trim().toLowerCase();
  if (sought === '') return [];
  const wanted = cuts.unit_id.levels.map((label) => label.toLowerCase().includes(sought));
  return [(row) => wanted[cuts.unit_id.codes[row] as number] === true];
}

/** Narrows the rows of a view to those picked. */
export function pickedRows(
  scoped: Int32Array,
  view: View,
  pick: LivesPick,
  columns: ListColumns,
  episodes: EpisodeColumns | null,
): Picked {
  const tests = [
    ...[...endedTest(pick, view, columns), ...pastTest(pick, view, columns), ...atTest(pick, view, columns)],
    ...vehicleTest(pick, columns),
  ];
  const found =
    pick.found !== null && episodes !== null ? foundByLife(pick.found, view, episodes, columns.life.rows) : null;
  const kept = new Int32Array(scoped.length);
  let [rows, count] = [0, 0];
  for (const row of scoped) {
    if (found !== null && found[row] === 0) continue;
    if (!tests.every((test) => test(row))) continue;
    kept[rows++] = row;
    if (found !== null) count += found[row] as number;
  }
  return { rows: kept.subarray(0, rows), episodes: count };
}
