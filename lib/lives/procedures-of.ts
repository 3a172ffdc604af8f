import defaultProcedure from '../../data/default-procedure.json' with { type: 'json' };
import { procedureSchema, type Procedure } from '../../shared/procedure.ts';
import type { ReadReport } from '../../shared/record-set.ts';

/** The procedures a record set brings, or the one that ships: common practice, every value to be replaced by the maker's. */
export const proceduresOf = ({ procedures }: ReadReport): readonly Procedure[] =>
  procedures.length > 0 ? procedures : [procedureSchema.parse(defaultProcedure)];
