import { shortPrint } from '../../shared/settings-file.ts';

/** What a link calls the records that it was made from. */
export const recordsParameter = 'records';

/** Records as a link names them: their fingerprint, and where settings were changed since, that of both together. */
export interface LinkRecords {
  readonly records: string;
  readonly settled: string | null;
}

interface Prints {
  readonly records: string;
  /** Of the records and the settings they were rebuilt by. */
  readonly settled: string;
}

export const linkRecords = ({ records, settled }: Prints): LinkRecords => ({
  records: shortPrint(records),
  settled: records === settled ? null : shortPrint(settled),
});

/** An address that says, too, what records it shows. */
export function withRecords(address: string, prints: Prints): string {
  const url = new URL(address);
  const { records, settled } = linkRecords(prints);
  url.searchParams.set(recordsParameter, settled === null ? records : `${records}.${settled}`);
  return url.href;
}

/** The records that a link was made from; null where it does not say, or not as a link of ours would. */
export function recordsInSearch(search: string): LinkRecords | null {
  const said = new URLSearchParams(search).get(recordsParameter) ?? '';
  const [, records, settled] = /^([0-9a-f]{12})(?:\.([0-9a-f]{12}))?$/.exec(said) ?? [];
  return records === undefined ? null : { records, settled: settled ?? null };
}

/** How the records that are open stand to those of a link. */
export function comparedRecords(link: LinkRecords, prints: Prints): 'same' | 'other settings' | 'other records' {
  const open = linkRecords(prints);
  if (open.records !== link.records) return 'other records';
  return open.settled === link.settled ? 'same' : 'other settings';
}
