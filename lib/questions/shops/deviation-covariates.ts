import { deviationCodes, deviationColumn } from '../../../shared/deviations.ts';
import { leastLevelFailures } from '../adjustment/pooled-levels.ts';
import type { CutCodes } from '../columns/cut-codes.ts';

interface Levels {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}

/** What each life says of one deviation: an index into these. */
export const deviationValues = ['yes', 'no', 'unknown', 'not-applicable'] as const;

/** What the lives say of every deviation, one code a life into `deviationValues`. */
export type DeviationColumns = ReadonlyMap<string, Uint8Array>;

export async function deviationColumns(
  cut: (column: string) => Promise<CutCodes>,
  rows: Int32Array,
): Promise<DeviationColumns> {
  const columns = new Map<string, Uint8Array>();
  for (const code of deviationCodes) {
    const { levels, codes } = await cut(deviationColumn(code));
    const valueOf = levels.map((label) => Math.max(0, deviationValues.indexOf(label as 'yes')));
    columns.set(
      code,
      Uint8Array.from(rows, (row) => valueOf[codes[row] as number] as number),
    );
  }
  return columns;
}

/**
 * The recorded deviations as covariates: no (or cannot exist) against yes and against not known. A
 * deviation with too few failures carries no ratio and is left out; where none of the lives that do
 * not tell failed, these say nothing and stand with no.
 */
export function deviationCovariates(columns: DeviationColumns, event: ArrayLike<number>): Record<string, Levels> {
  const covariates: Record<string, Levels> = {};
  for (const [code, values] of columns) {
    const failed = [0, 0, 0, 0];
    values.forEach((value, at) => (failed[value] = (failed[value] as number) + (event[at] as number)));
    const [yes, no, unknown, never] = failed as [number, number, number, number];
    if (yes < leastLevelFailures || no + never < leastLevelFailures) continue;
    const places = [1, 0, unknown > 0 ? 2 : 0, 0];
    covariates[deviationColumn(code)] = {
      levels: unknown > 0 ? ['no', 'yes', 'unknown'] : ['no', 'yes'],
      codes: Int32Array.from(values, (value) => places[value] as number),
    };
  }
  return covariates;
}
