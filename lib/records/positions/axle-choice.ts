import type { Meaning } from './spellings.ts';

/** Which axle a reading names: words beside the side, and its number if it has one. */
export interface AxleWords {
  readonly words: ReadonlySet<Meaning>;
  readonly number: number | null;
  /** What the number counts: axles of the unit, of the role or place named, or it does not say which. */
  readonly counts: 'unit' | 'group' | 'either';
}

const roleWords = ['steer', 'drive', 'tag', 'pusher', 'lift', 'trailer'] as const;
const places = ['front', 'middle', 'rear'] as const;

/**
 * The axles, counted from 1 at the front, that the words can mean on a unit of these roles. Several
 * where they leave a choice; none where they name no axle the unit has; null where they name no axle at all.
 * @param ahead axles of the units in front where trailer axles are counted through the combination
 */
export function axlesMeant(said: AxleWords, roles: readonly string[], ahead: number): number[] | null {
  const { words, number } = said;
  const role = roleWords.filter((word) => words.has(word));
  const place = places.filter((word) => words.has(word));
  if (number === null && role.length === 0 && place.length === 0 && !words.has('tandem')) return null;
  if (role.length > 1 || place.length > 1) return [];
  if (words.has('drives')) return number === null ? ofTwoDrives(roles, role[0], place[0]) : [];
  const own = numbered(roles, number, ahead);
  const group = groupOf(roles, role[0], words.has('tandem'), place[0]);
  if (number === null) return atPlace(group, place[0], role.length > 0 || words.has('tandem') || isTrailer(roles));
  if (role.length === 0 && place.length === 0) return own;
  if (role.length === 0 && isTrailer(roles)) return own.filter((axle) => atPlace(group, place[0], true).includes(axle));
  const chosen = role.length > 0 || words.has('tandem') ? atPlace(group, place[0], true) : group;
  const absolute = own.filter((axle) => chosen.includes(axle));
  // The front or rear one of them is one already, and is not counted among itself.
  if (said.counts === 'unit' || (chosen.length === 1 && place.length > 0 && group.length > 1)) return absolute;
  const nth = nthOf(chosen, number);
  return said.counts === 'group' ? nth : [...new Set([...nth, ...absolute])];
}

const isTrailer = (roles: readonly string[]): boolean => roles.every((role) => role === 'trailer');

/** The axle of that number, if the unit has it. */
function numbered(roles: readonly string[], number: number | null, ahead: number): number[] {
  if (number === null) return [];
  const axle = isTrailer(roles) ? number - ahead : number;
  return axle >= 1 && axle <= roles.length ? [axle] : [];
}

const nthOf = (axles: readonly number[], n: number): number[] => axles.slice(n - 1, n).filter(() => n > 0);

const axlesWith = (roles: readonly string[], holds: (role: string) => boolean): number[] =>
  roles.flatMap((role, index) => (holds(role) ? [index + 1] : []));

/** The axles among which a place or a number chooses. */
function groupOf(
  roles: readonly string[],
  role: string | undefined,
  tandem: boolean,
  place: string | undefined,
): number[] {
  const all = axlesWith(roles, () => true);
  const inRole = role === undefined ? all : axlesWith(roles, (own) => own === role);
  if (tandem) return tandemOf(roles).filter((axle) => inRole.includes(axle));
  if (role !== undefined || isTrailer(roles)) return inRole;
  const behind = axlesWith(roles, (own) => own !== 'steer');
  if (place === 'front') return roles[0] === 'steer' ? axlesWith(roles, (own) => own === 'steer') : all.slice(0, 1);
  return place === undefined ? all : behind;
}

function ofTwoDrives(roles: readonly string[], role: string | undefined, place: string | undefined): number[] {
  const drives = axlesWith(roles, (own) => own === 'drive');
  return drives.length === 2 && (role === undefined || role === 'drive') ? atPlace(drives, place, true) : [];
}

/** The two drive axles, or the two axles behind the steered ones, or the two of a trailer. */
function tandemOf(roles: readonly string[]): number[] {
  const drives = axlesWith(roles, (role) => role === 'drive');
  if (drives.length === 2) return drives;
  const behind = axlesWith(roles, (role) => role !== 'steer');
  return behind.length === 2 ? behind : [];
}

/** @param ordered that the place chooses within the group; else the group is that of the place already */
function atPlace(group: readonly number[], place: string | undefined, ordered: boolean): number[] {
  if (place === undefined || !ordered || group.length < 2)
    return place === 'middle' && group.length < 3 ? [] : [...group];
  if (place === 'front') return group.slice(0, 1);
  if (place === 'rear') return group.slice(-1);
  return group.length === 3 ? group.slice(1, 2) : [];
}
