import type { ColumnMap } from '../../../shared/column-map.ts';
import type { SourceChoice } from '../../../shared/source-choice.ts';
import type { RecordSource } from '../record-source.ts';
import { lookAtSource, type SourceLook } from '../source-look.ts';
import { namedHeaders } from './fitting-map.ts';
import type { Proposal } from './propose/proposal.ts';
import { proposeMap } from './propose/propose-map.ts';
import { sampleOf, type Sample } from './sample.ts';
import type { UnitRoles } from './unit-roles.ts';

/** A file that no map fits and whose headers, or the words under them, are not ours. */
export interface UnmappedFile {
  readonly name: string;
  /** Why a map that comes near does not fit, or why the file goes by none; null where it only needs one. */
  readonly why: string | null;
  /** The map that it is read by, where that is to be looked at again. */
  readonly map: ColumnMap | null;
  readonly sample: Sample;
  readonly proposal: Proposal;
  /** Whether it looks like records at all: some column names units, and others something of ours. */
  readonly likely: boolean;
  /** All of its rows, up to as many as are asked for, below the same headers as the sample. */
  readonly rows: (limit: number, signal?: AbortSignal) => Promise<Sample | string>;
  /** Its sheets and their first rows, where the file leaves a choice. */
  readonly look: (signal?: AbortSignal) => Promise<SourceLook>;
  /** The same file with its rows where somebody says they stand, its columns proposed anew; or why none stand there. */
  readonly at: (where: SourceChoice, signal?: AbortSignal) => Promise<UnmappedFile | string>;
}

interface Found {
  readonly source: RecordSource;
  readonly sample: Sample;
  readonly why: string | null;
  readonly map: ColumnMap | null;
  /** Where the rows of the sample were found. */
  readonly where: SourceChoice;
  /** The same as it was said, to be kept in the map. */
  readonly said?: SourceChoice;
  readonly roles: UnitRoles;
}

/** A file with what is proposed for its columns. */
export function unmappedFile({ source, sample, why, map, where, said, roles }: Found): UnmappedFile {
  const proposed = proposeMap(source.name, sample.headers, sample.rows, roles);
  const found = proposed.columns.filter(
    ({ confidence, ours }) => confidence > 0.5 && !/^(service|failure|inspection)_id$/.test(ours),
  );
  return {
    ...{ name: source.name, why, map, sample },
    proposal: said === undefined ? proposed : { ...proposed, map: { ...proposed.map, where: said } },
    likely: map !== null || (found.length >= 2 && found.some(({ ours }) => ours === 'unit_id')),
    rows: (limit, signal) => sampleOf(source, where, limit, signal),
    look: (signal) => lookAtSource(source, where, signal),
    async at(said, signal) {
      const { sheet } = source;
      const where = sheet === undefined ? said : { ...said, sheet };
      const there = await sampleOf(source, where, undefined, signal);
      if (typeof there === 'string') return there;
      if (namedHeaders(there.headers).length === 0) return `has no words in row ${said.headerRow}`;
      if (there.rows.length === 0) return 'has no rows below these headers';
      const kept = said.sheet === undefined && said.headerRow === undefined ? {} : { said };
      return unmappedFile({ source, sample: there, why: null, map: null, where, ...kept, roles });
    },
  };
}
