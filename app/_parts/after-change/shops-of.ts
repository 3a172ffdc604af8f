import type { OpenRecordSet } from '../../_state/record-sets.ts';

/** Shops named in the open records. */
export const shopsOf = (open: OpenRecordSet | null): string[] =>
  open?.choices.columns
    .find(({ column }) => column === 'shop')
    ?.values.map(({ value }) => value)
    .filter((value) => value !== 'unknown') ?? [];
