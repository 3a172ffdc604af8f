import { NEGLIGIBLE } from './climb-to-top.ts';
import { designMatrix, designTable } from './design-matrix.ts';
import { checkLives } from './checked-lives.ts';
import type { StandardisedDesign } from './life-design.ts';
import { logExposure, toExposure, type CountRows, type RateColumns } from './poisson-data.ts';
import type { CountFit } from './poisson-fit.ts';
import { StatisticsError } from './statistics-error.ts';
import type { Covariates, NumberColumn } from './survival-data.ts';

/** Rows to expect events of: an exposure (1 where not given), or lives. Covariates as in the fit, matched by name. */
export type ExpectedData = RateColumns &
  ({ readonly exposure?: NumberColumn } | { readonly exit: NumberColumn; readonly entry?: NumberColumn });

/** Events that a fit expects of each row of other data. `constants` has the one value seen of each constant column. */
export function expectedCounts(
  { gamma, poisson }: CountFit,
  design: StandardisedDesign,
  constants: ReadonlyMap<string, number>,
  logUnit: number,
): (data: ExpectedData) => Float64Array {
  return (data) => {
    const offset = logExposure(exposureOf(data), data.offset);
    const { terms, table } = columnsOf(data, offset.length);
    for (const [term, seen] of constants) checkConstant(table, terms, term, seen);
    const at = design.terms.map((term) => {
      const column = terms.indexOf(term);
      if (column < 0) throw new StatisticsError('covariates', `lack ${term}, a term of the fit`);
      return column;
    });
    const predictor = (weights: Float64Array, row: number): number =>
      at.reduce((sum, column, j) => {
        const value = table[row * terms.length + column] as number;
        return (
          sum + ((weights[j + 1] as number) * (value - (design.centre[j] as number))) / (design.scale[j] as number)
        );
      }, weights[0] as number);
    return offset.map((log, row) => {
      const moves = poisson.directions.map((direction) => predictor(direction, row));
      if (moves.some((move) => move > NEGLIGIBLE))
        throw new StatisticsError('covariates', 'are where the fit sets no upper bound to the rate', row);
      if (moves.some((move) => move < -NEGLIGIBLE)) return 0;
      return Math.exp(predictor(gamma, row) + log - logUnit);
    });
  };
}

function exposureOf(data: ExpectedData): Float64Array {
  if ('exit' in data) {
    const { exit, entry } = checkLives({ ...data, event: [] });
    return entry ? exit.map((time, row) => time - (entry[row] as number)) : exit;
  }
  const [column] = Object.values(data.covariates ?? {});
  const length = (data.exposure ?? data.offset ?? (column && ('codes' in column ? column.codes : column)))?.length;
  if (length === undefined) throw new StatisticsError('exposure', 'is wanted where there are no covariates');
  return toExposure(data.exposure, length);
}

function columnsOf({ covariates }: RateColumns, rows: number): { terms: readonly string[]; table: Float64Array } {
  const matrix = designMatrix(covariates ?? {}, rows);
  return {
    terms: matrix.terms,
    table: designTable(
      matrix,
      Int32Array.from({ length: rows }, (_, row) => row),
    ),
  };
}

function checkConstant(table: Float64Array, terms: readonly string[], term: string, seen: number): void {
  const column = terms.indexOf(term);
  if (column < 0) return;
  for (let row = 0; row * terms.length < table.length; row++)
    if (table[row * terms.length + column] !== seen)
      throw new StatisticsError('covariates', `have ${term} differ from the only value the fit has seen`, row);
}

/** The value that each column left out as constant has wherever it counts. */
export function constantsOf(covariates: Covariates, design: StandardisedDesign, rows: CountRows): Map<string, number> {
  const constant = design.warnings.filter(({ kind }) => kind === 'constant').map(({ term }) => term as string);
  if (constant.length === 0) return new Map();
  const matrix = designMatrix(covariates, rows.length);
  const values = designTable(matrix, [rows.source ? (rows.source[0] as number) : 0]);
  return new Map(constant.map((term) => [term, values[matrix.terms.indexOf(term)] as number]));
}
