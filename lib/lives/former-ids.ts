/** A row of the units table as far as numbers and their times go; days are whole days since 1970-01-01. */
export interface NumberedUnit {
  readonly row: number;
  readonly unitId: string;
  readonly formerIds: readonly string[];
  readonly inService: number | null;
  readonly out: number | null;
  readonly outReason: string | null;
}

/** Rows written under `name` from one day up to, not including, another are those of `unitId`. Null = open. */
export interface Alias {
  readonly name: string;
  readonly unitId: string;
  readonly from: number | null;
  readonly until: number | null;
}

/** The rows of the units table that are one vehicle, in the order of their days. */
export interface OneVehicle {
  readonly unitId: string;
  readonly rows: readonly number[];
}

export interface FormerIds {
  readonly aliases: readonly Alias[];
  readonly vehicles: readonly OneVehicle[];
  /** What could not be decided, in sentences; those numbers stay as written. */
  readonly undecided: readonly string[];
}

const order = (a: NumberedUnit, b: NumberedUnit) =>
  (a.inService ?? -Infinity) - (b.inService ?? -Infinity) || a.row - b.row;
const gone = ({ outReason }: NumberedUnit) => outReason === 'sold' || outReason === 'wrecked';

/** A unit number with every unit that names it as its former one, and its own rows. */
interface Name {
  readonly name: string;
  readonly claims: readonly NumberedUnit[];
  readonly own: readonly NumberedUnit[];
}

/** Whether the number's own row is the same vehicle before it was renumbered: it came no later, and was not sold or wrecked. */
const isPredecessor = (own: NumberedUnit, claim: NumberedUnit): boolean =>
  !gone(own) && (own.inService === null || claim.inService === null || own.inService <= claim.inService);

/** Numbers on the way from a unit back through its former numbers that lead to the unit itself. */
function cycles(units: readonly NumberedUnit[]): ReadonlySet<string> {
  const former = new Map<string, string[]>();
  for (const { unitId, formerIds } of units) former.set(unitId, [...(former.get(unitId) ?? []), ...formerIds]);
  const reaches = (start: string): boolean => {
    const seen = new Set<string>();
    const waiting = [...(former.get(start) ?? [])];
    for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
      if (name === start) return true;
      if (!seen.has(name)) waiting.push(...(former.get(name) ?? []));
      seen.add(name);
    }
    return false;
  };
  return new Set([...former.keys()].filter(reaches));
}

interface Holder {
  readonly unitId: string;
  readonly from: number | null;
}

/** Who held a number when: each from its day in service on; null where the days do not tell. */
function turns(holders: readonly Holder[]): Holder[] | null {
  if (holders.length < 2) return [...holders];
  const days = holders.map(({ from }) => from);
  if (days.includes(null) || new Set(days).size < days.length) return null;
  return [...holders].sort((a, b) => (a.from as number) - (b.from as number));
}

/**
 * Puts rows written under former numbers with the unit of today (records under `former_ids`): chains
 * are followed, a number given to another vehicle later is parted by the days in service, and what
 * cannot be decided, or leads in a circle, is said and left as written.
 * @param units rows of the units table: all of those whose number or former numbers occur more than once
 */
export function resolvedFormerIds(units: readonly NumberedUnit[]): FormerIds {
  const undecided: string[] = [];
  const inCircle = cycles(units);
  if (inCircle.size > 0)
    undecided.push(
      `former_ids lead in a circle; each unit has its own former numbers; ${[...inCircle].sort().join(', ')}`,
    );
  const able = units.filter(({ unitId }) => !inCircle.has(unitId));
  const successor = new Map<string, Holder[]>();
  const merged = new Map<number, string>();
  for (const { name, claims, own } of namesOf(able)) {
    const [only, ...others] = claims;
    const before = own.filter((row) => only && others.length === 0 && isPredecessor(row, only));
    const apart = own.filter((row) => !before.includes(row));
    const holders = [...claims, ...apart].map(({ unitId, inService }) => ({ unitId, from: inService }));
    const inTurn = turns(holders);
    if (inTurn === null) {
      const who = [...new Set(holders.map(({ unitId }) => unitId))].sort().join(', ');
      undecided.push(
        `a number held by several units; each has an in_service_date of its own, which parts their rows; ${name}: ${who}`,
      );
      continue;
    }
    successor.set(name, inTurn);
    for (const { row } of before) merged.set(row, (only as NumberedUnit).unitId);
  }
  return { aliases: aliasesOf(successor), vehicles: vehiclesOf(able, merged, successor), undecided };
}

function namesOf(units: readonly NumberedUnit[]): Name[] {
  const claims = new Map<string, NumberedUnit[]>();
  const own = new Map<string, NumberedUnit[]>();
  for (const unit of units) {
    own.set(unit.unitId, [...(own.get(unit.unitId) ?? []), unit]);
    for (const name of new Set(unit.formerIds))
      if (name !== unit.unitId) claims.set(name, [...(claims.get(name) ?? []), unit]);
  }
  return [...claims].map(([name, list]) => ({
    name,
    claims: [...new Map(list.map((unit) => [unit.unitId, unit])).values()].sort(order),
    own: own.get(name) ?? [],
  }));
}

/** The number a unit bears today, through every renumbering that a single unit claims. */
function today(unitId: string, successor: ReadonlyMap<string, readonly Holder[]>): string {
  let name = unitId;
  for (let next = successor.get(name); next?.length === 1 && next[0]?.unitId !== name; next = successor.get(name))
    name = (next[0] as Holder).unitId;
  return name;
}

function aliasesOf(successor: ReadonlyMap<string, readonly Holder[]>): Alias[] {
  return [...successor].flatMap(([name, holders]) =>
    holders.map(({ unitId, from }, at) => ({
      name,
      // A number that came back to a vehicle's own name ends there.
      unitId: unitId === name ? name : today(unitId, successor),
      from: at === 0 ? null : from,
      until: holders[at + 1]?.from ?? null,
    })),
  );
}

function vehiclesOf(
  units: readonly NumberedUnit[],
  merged: ReadonlyMap<number, string>,
  successor: ReadonlyMap<string, readonly Holder[]>,
): OneVehicle[] {
  const vehicles = new Map<string, NumberedUnit[]>();
  for (const unit of units) {
    const into = merged.get(unit.row);
    const unitId = into === undefined ? unit.unitId : today(into, successor);
    vehicles.set(unitId, [...(vehicles.get(unitId) ?? []), unit]);
  }
  return [...vehicles]
    .filter(([unitId, rows]) => rows.length > 1 || rows.some((row) => row.unitId !== unitId))
    .map(([unitId, rows]) => ({ unitId, rows: [...rows].sort(order).map(({ row }) => row) }));
}
