import { failureModes, lifeStates } from '../../../shared/vocabulary.ts';
import type { ListedCut } from './list-columns.ts';
import type { LivesListed } from './list-lives.ts';

/** One line of the list; miles as stored, null = not known. */
export interface ListedLife {
  readonly lifeId: string;
  readonly unitId: string;
  /** `2 left`. */
  readonly position: string;
  readonly role: string;
  readonly lifeNumber: string;
  readonly installDate: string | null;
  readonly installMiles: number | null;
  /** Age at which it was first watched. */
  readonly entryMiles: number | null;
  /** Age at its end. */
  readonly exitMiles: number | null;
  readonly exposureMiles: number;
  readonly state: (typeof lifeStates)[number];
  readonly mode: string | null;
  readonly inferred: boolean;
  readonly shop: string;
  readonly lubricant: string;
  readonly hubBuild: string;
}

const known = (value: number): number | null => (Number.isNaN(value) ? null : value);
const day = (number: number): string | null =>
  Number.isNaN(number) ? null : new Date(number * 86_400_000).toISOString().slice(0, 10);

/** Lines of the list from a place on; the ids are those of lives rebuilt from records. */
export function listedLives(
  { component, rows, columns }: Pick<LivesListed, 'component' | 'rows' | 'columns'>,
  from: number,
  count: number,
): ListedLife[] {
  const { life, cuts, installMiles, state } = columns;
  const label = (column: ListedCut, row: number) => cuts[column].levels[cuts[column].codes[row] as number] as string;
  return Array.from(rows.subarray(from, from + count), (row) => {
    const [unitId, position, lifeNumber] = [
      label('unit_id', row),
      label('position', row),
      label('life_number', row),
    ] as const;
    return {
      ...{ lifeId: `${unitId} ${position} ${component} ${lifeNumber}`, unitId, position, lifeNumber },
      ...{ role: label('role', row), installDate: day(life.installDay[row] as number) },
      ...{ installMiles: known(installMiles[row] as number), entryMiles: known(life.entry[row] as number) },
      ...{ exitMiles: known(life.exit[row] as number), exposureMiles: life.exposure[row] as number },
      state: lifeStates[state[row] as number] as ListedLife['state'],
      mode: failureModes[(life.mode[row] as number) - 1] ?? null,
      inferred: life.inferred[row] === 1,
      ...{ shop: label('shop', row), lubricant: label('lubricant', row), hubBuild: label('hub_build', row) },
    };
  });
}
