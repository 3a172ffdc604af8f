import { inTurn } from './listing.ts';

export interface Place {
  readonly unit_id: string;
  readonly axle: number;
  readonly side: string;
}
/** The axles of a row's unit, front to rear. */
export type RolesOf = (row: { readonly unit_id: string }) => readonly string[];

const isTrailer = (roles: readonly string[]): boolean => roles[0] === 'trailer';
const axlesOf = (roles: readonly string[], role: string): number[] =>
  roles.flatMap((own, at) => (own === role ? [at + 1] : []));

/** Tractors and trucks with two drive axles: `RR` says too little there. */
export const hasTwoDrives = (_row: unknown, roles: readonly string[]): boolean => axlesOf(roles, 'drive').length === 2;
export const isDrive = ({ axle }: Place, roles: readonly string[]): boolean => roles[axle - 1] === 'drive';

/** As mechanics west of the Atlantic write it, in one of several ways. */
export function yardSpelling(place: Place, roles: readonly string[]): string {
  return inTurn(yardSpellings(place, roles).join('|'), `${place.unit_id} ${place.axle} ${place.side}`);
}

function yardSpellings({ axle, side }: Place, roles: readonly string[]): string[] {
  const letter = side === 'left' ? 'L' : 'R';
  const hand = `${letter}H`;
  const seat = side === 'left' ? 'driver side' : 'curb side';
  const role = roles[axle - 1] ?? '';
  const same = axlesOf(roles, role);
  const nth = same.indexOf(axle);
  if (role === 'steer') return [`${letter}F`, `${letter}FS`, `Steer ${hand}`, `steer ${seat}`, `S1${letter}`];
  if (role === 'drive' && same.length === 1)
    return [`Drive ${hand}`, `D1${letter}`, `drive ${side}`, `Axle ${axle} ${hand}`];
  if (role === 'drive') {
    const end = nth === 0 ? 'F' : 'R';
    const word = nth === 0 ? '1st' : '2nd';
    return [
      `${letter}${end}D`,
      `${word} drive ${hand}`,
      `D${nth + 1}${letter}`,
      `${nth === 0 ? 'Fwd' : 'Rear'} drive ${seat}`,
    ];
  }
  if (!isTrailer(roles)) return [`${role} ${hand}`, `${role.toUpperCase()} ${side}`, `Axle ${axle} ${hand}`];
  const where = nth === 0 ? 'F' : nth === same.length - 1 ? 'R' : 'M';
  const ordinal = ['1st', '2nd', '3rd'][nth] ?? '';
  return [
    `${letter}${where}`,
    `T${axle}${letter}`,
    `trailer axle ${axle} ${hand}`,
    `${ordinal} axle ${seat}`,
    `Trlr ${axle} ${side}`,
  ];
}

/** As where one drives on the left: nearside is the kerb's. */
export function kerbSpelling(place: Place, roles: readonly string[]): string {
  const { axle, side, unit_id } = place;
  const short = side === 'left' ? 'N/S' : 'O/S';
  const long = side === 'left' ? 'nearside' : 'offside';
  const role = roles[axle - 1] ?? '';
  const same = axlesOf(roles, role);
  const nth = ['1st', '2nd', '3rd'][same.indexOf(axle)] ?? '';
  const named = role === 'steer' ? `steer` : same.length === 1 ? role : `${nth} ${role}`;
  return inTurn(`Axle ${axle} ${short}|${named} ${long}|${named} ${short}`, `${unit_id} ${axle} ${side}`);
}

/** Axles counted through the combination, a tractor with three being ahead of every trailer. */
export const combinationSpelling =
  (ahead: number) =>
  ({ axle, side }: Place, roles: readonly string[]): string =>
    `Ax ${axle + (isTrailer(roles) ? ahead : 0)} ${side === 'left' ? 'LH' : 'RH'}`;

/** A letter and two numbers' worth: role, which of them, side. */
export function codeSpelling({ axle, side }: Place, roles: readonly string[]): string {
  const role = roles[axle - 1] ?? '';
  const letter = side === 'left' ? 'L' : 'R';
  if (!['steer', 'drive', 'trailer'].includes(role)) return `${role} ${letter}H`;
  return `${role.slice(0, 1).toUpperCase()}${axlesOf(roles, role).indexOf(axle) + 1}${letter}`;
}

/** Some of one yard's meters count kilometres. */
export const inKilometres = ({ unit_id }: { readonly unit_id: string }): boolean => /[37]$/.test(unit_id);
