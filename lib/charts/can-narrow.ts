import { cutColumns } from '../../shared/lives.ts';

/** Whether lives can be told by what a group stands for; a rule or a stretch of a scale is no column of theirs. */
export const canNarrow = (by: Readonly<Record<string, string>>): boolean =>
  Object.keys(by).every((column) => column === 'deviation' || cutColumns.includes(column));
