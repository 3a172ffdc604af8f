import type { ChangeRecord } from '../../../shared/change-record.ts';
import type { JudgedChange } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { changeFingerprint } from './change-fingerprint.ts';

const sameShops = (one: readonly string[], other: readonly string[]): boolean =>
  one.length === other.length && one.every((shop) => other.includes(shop));

/** The change asked for with what was written down of it, if anything was; the earliest where several were. */
export async function judgedChange({ source, changes = [], view }: Asking): Promise<JudgedChange | null> {
  const { change: date, changedShops: shops } = view;
  if (date === null || shops.length === 0) return null;
  const written = [...changes, ...source.changes]
    .filter((record) => record.date === date && sameShops(record.shops, shops))
    .sort((a, b) => (a.writtenOn < b.writtenOn ? -1 : 1))[0];
  if (!written) return { date, shops, against: 'a date given now', record: null, fingerprint: null };
  return { date, shops, against: when(written), record: written, fingerprint: await changeFingerprint(written) };
}

const when = ({ writtenOn, date }: ChangeRecord): JudgedChange['against'] =>
  writtenOn <= date ? 'written down beforehand' : 'written down afterwards';
