import { shownLimits, type Finding, type Group } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import { roles, sides } from '../../../shared/vocabulary.ts';

/** One wheel end of the plan, as the records have it. */
export interface WheelEnd {
  readonly role: string;
  /** `2 left`: the axle counted from the front of its own unit, and the side facing forward. */
  readonly position: string;
  readonly axle: number;
  readonly side: string;
  /** Failures per million miles, and its density of hatching 1 to 4; null where too few to tell. */
  readonly rate: number | null;
  readonly hatch: number;
  readonly group: Group;
}

const roleOrder = (role: string): number => {
  const at = (roles as readonly string[]).indexOf(role);
  return at < 0 ? roles.length : at;
};

/** The view behind the plan: the reader's, cut by wheel end and freed of any narrowing by place. */
export function planView(view: View): View {
  const where = Object.fromEntries(
    Object.entries(view.where).filter(([column]) => !['role', 'position', 'axle', 'side'].includes(column)),
  );
  return { ...view, by: ['role', 'position'], where, axis: 'miles', horizonMiles: 100_000 };
}

/** The wheel ends of a finding cut by role and position, front to rear; those of no known place are left out. */
export function wheelEndsOf(finding: Finding): WheelEnd[] {
  const ends = finding.groups.flatMap((group) => {
    const { role = 'unknown', position = 'unknown' } = group.by;
    const [axle, side] = position.split(' ');
    if (role === 'unknown' || side === undefined || !(sides as readonly string[]).includes(side)) return [];
    const estimate = group.estimates['failuresPerMillionMiles'];
    const told = group.firmness !== 'too few' && estimate !== undefined && shownLimits(estimate).upper !== null;
    return [{ role, position, axle: Number(axle), side, rate: told ? estimate.value : null, hatch: 0, group }];
  });
  const most = Math.max(0, ...ends.map(({ rate }) => rate ?? 0));
  return ends
    .map((end) => ({
      ...end,
      hatch: end.rate === null || most === 0 ? 0 : Math.max(1, Math.ceil((end.rate / most) * 4)),
    }))
    .sort((a, b) => roleOrder(a.role) - roleOrder(b.role) || a.axle - b.axle);
}

/** The same wheel ends by axle, front to rear. */
export function axlesOf(ends: readonly WheelEnd[]): WheelEnd[][] {
  const axles = new Map<string, WheelEnd[]>();
  for (const end of ends) {
    const key = `${end.role} ${end.axle}`;
    axles.set(key, [...(axles.get(key) ?? []), end]);
  }
  return [...axles.values()];
}

export const isChosen = ({ where }: View, { role, position }: Pick<WheelEnd, 'role' | 'position'>): boolean =>
  (where['role']?.includes(role) ?? true) && (where['position']?.includes(position) ?? true);

/**
 * The view with some wheel ends chosen or given up. A view keeps roles and positions apart, so
 * choosing the second axle of both a tractor and a trailer keeps whatever else those words cover;
 * the plan then shows what is really kept. With none or all chosen the view is free of both.
 */
export function chooseEnds(view: View, ends: readonly WheelEnd[], chosen: readonly WheelEnd[]): View['where'] {
  const { role: _role, position: _position, ...rest } = view.where;
  if (chosen.length === 0 || chosen.length === ends.length) return rest;
  const kept = [...new Set(chosen.map(({ role }) => role))];
  const positions = [...new Set(chosen.map(({ position }) => position))];
  const offered = new Set(ends.filter(({ role }) => kept.includes(role)).map(({ position }) => position));
  const allRoles = new Set(ends.map(({ role }) => role)).size === kept.length;
  return {
    ...rest,
    ...(allRoles ? {} : { role: kept }),
    ...(positions.length === offered.size ? {} : { position: positions }),
  };
}

/** What pressing one wheel end, or a whole axle's, does to those chosen; from all chosen it starts afresh. */
export function pressed(view: View, ends: readonly WheelEnd[], these: readonly WheelEnd[]): View['where'] {
  const now = ends.filter((end) => isChosen(view, end));
  if (now.length === ends.length) return chooseEnds(view, ends, these);
  const allThere = these.every((end) => now.includes(end));
  const next = allThere ? now.filter((end) => !these.includes(end)) : [...new Set([...now, ...these])];
  return chooseEnds(view, ends, next);
}
