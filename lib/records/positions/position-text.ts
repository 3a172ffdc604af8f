import type { Position } from './read-position.ts';

const counted = ['', '1st', '2nd', '3rd'];
const nth = (n: number): string => counted[n] ?? `${n}th`;

/** A position in the words of the trade: `2nd drive right`, `steer left`; without roles `axle 3 right`. */
export function positionText({ axle, side }: Position, roles: readonly string[] | null): string {
  const role = roles?.[axle - 1];
  if (roles === null || role === undefined) return `axle ${axle} ${side}`;
  const same = roles.flatMap((own, index) => (own === role ? [index + 1] : []));
  return same.length === 1 ? `${role} ${side}` : `${nth(same.indexOf(axle) + 1)} ${role} ${side}`;
}
