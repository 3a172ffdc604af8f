import { numberColumn, type ResultTable } from '../../engine/engine.ts';

/** What the list of lives shows beyond what questions read; one place a life, in the order of the lives table. */
export interface ListedColumns {
  /** Odometer at installation; NaN where the start is not known. */
  readonly installMiles: Float64Array;
  /** Place of the state in `lifeStates`. */
  readonly state: Uint8Array;
}

export function readListedColumns(result: ResultTable): ListedColumns {
  const place = numberColumn(result, 'life_row');
  const [miles, code] = [numberColumn(result, 'install_miles'), numberColumn(result, 'state_code')];
  const [installMiles, state] = [new Float64Array(result.rows), new Uint8Array(result.rows)];
  for (let row = 0; row < result.rows; row++) {
    installMiles[place[row] as number] = miles[row] as number;
    state[place[row] as number] = code[row] as number;
  }
  return { installMiles, state };
}
