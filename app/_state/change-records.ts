import { changeFileSchema, changeRecordSchema, type ChangeRecord } from '../../shared/change-record.ts';
import { recordSets, type OpenRecordSet } from './record-sets.ts';

const same = (one: ChangeRecord, other: ChangeRecord): boolean => JSON.stringify(one) === JSON.stringify(other);

/** Changes are kept with what was chosen about the record set, and come along wherever it goes. */
const keep = async ({ settings: { choices } }: OpenRecordSet, changes: readonly ChangeRecord[]): Promise<void> => {
  await recordSets.rebuild({ choices: { ...choices, changes: [...changes] } });
};

export const writeDown = (open: OpenRecordSet, record: ChangeRecord): Promise<void> =>
  keep(open, [...open.settings.choices.changes.filter((own) => !same(own, record)), record]);

export const takeOff = (open: OpenRecordSet, record: ChangeRecord): Promise<void> =>
  keep(
    open,
    open.settings.choices.changes.filter((own) => !same(own, record)),
  );

/** A change record as a file, its fingerprint along. */
export async function changeFileText(open: OpenRecordSet, record: ChangeRecord): Promise<string> {
  const fingerprint = await open.desk.changeFingerprint(record);
  return `${JSON.stringify({ ...record, fingerprint }, null, 2)}\n`;
}

/** What a file of a change holds, and whether it was altered since its fingerprint was taken; a text says why it is none. */
export async function readChangeFile(
  open: OpenRecordSet,
  file: File,
): Promise<{ readonly record: ChangeRecord; readonly altered: boolean } | string> {
  let content: unknown;
  try {
    content = JSON.parse(await file.text());
  } catch {
    return `${file.name} is no JSON file.`;
  }
  const parsed = changeFileSchema.safeParse(content);
  if (!parsed.success) {
    const first = parsed.error.issues[0];
    return `${file.name} is no change record: ${first ? `${first.path.join('.')}: ${first.message}` : 'not understood'}.`;
  }
  const record = changeRecordSchema.parse(parsed.data);
  const { fingerprint } = parsed.data;
  return { record, altered: fingerprint !== undefined && fingerprint !== (await open.desk.changeFingerprint(record)) };
}
