import { textColumn, type Engine } from '../../engine/engine.ts';
import { sql, type Identifier } from '../../engine/statement.ts';

/** The axles of a unit, front to rear. */
export interface UnitAxles {
  readonly roles: readonly string[];
  /** The same as one text: `steer drive drive`. */
  readonly key: string;
}

/** Which axles each unit has, as far as the units table says. */
export class UnitRoles {
  readonly #byUnit = new Map<string, UnitAxles>();
  readonly #kinds = new Map<string, UnitAxles>();

  /** The first that is said of a unit counts, as in the units table. @param roles separated by `;` or spaces */
  add(unitId: string, roles: string): void {
    if (this.#byUnit.has(unitId)) return;
    const words = roles
      .toLowerCase()
      .split(/[;\s]+/)
      .filter(Boolean);
    const key = words.join(' ');
    let axles = this.#kinds.get(key);
    if (!axles) this.#kinds.set(key, (axles = { roles: words, key }));
    this.#byUnit.set(unitId, axles);
  }

  of(unitId: string): UnitAxles | null {
    return this.#byUnit.get(unitId) ?? null;
  }

  get size(): number {
    return this.#byUnit.size;
  }
}

/** Reads the axles out of a table of units; a former id counts where no unit has it now. */
export async function unitRolesIn(engine: Engine, units: Identifier, withFormerIds: boolean): Promise<UnitRoles> {
  const found = new UnitRoles();
  const former = withFormerIds
    ? sql`union all select trim(former) as unit_id, axle_roles, 1 as later, file_id, line
        from ${units}, unnest(string_split(former_ids, ';')) as parts(former) where former_ids is not null`
    : sql``;
  const read = await engine.query(sql`
    select unit_id, axle_roles from (
      select unit_id, axle_roles, 0 as later, file_id, line from ${units} ${former}
    ) order by later, file_id, line`);
  const [ids, roles] = [textColumn(read, 'unit_id'), textColumn(read, 'axle_roles')];
  for (let row = 0; row < read.rows; row++) found.add(ids[row] ?? '', roles[row] ?? '');
  return found;
}
