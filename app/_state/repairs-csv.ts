import type { MileageRepair } from '../../lib/lives/index.ts';
import { csvText } from '../../lib/records/index.ts';
import { mileageRules } from '../../shared/choices.ts';
import type { FileAccount } from '../../shared/record-set.ts';

const heads = [
  'file',
  'row',
  'table',
  'unit_id',
  'date',
  'rule',
  'miles_written',
  'miles_used',
  'accepted_from',
  'accepted_to',
];

/** Every repair of miles with where its row stands; miles used are those of a meter never reset. */
export const repairsCsv = (repairs: readonly MileageRepair[], files: readonly FileAccount[]): string =>
  csvText(
    heads,
    repairs.map(({ fileId, line, table, unitId, day, rule, written, used, acceptedFrom, acceptedTo }) => [
      ...[files[fileId]?.name ?? '', line, table, unitId, day, mileageRules[rule]],
      ...[written, used, acceptedFrom, acceptedTo],
    ]),
  );
