import { sha256 } from 'hash-wasm';
import type { Procedure } from '../../shared/procedure.ts';
import type { Choices } from '../../shared/choices.ts';
import type { ReadReport } from '../../shared/record-set.ts';

/** What lives are rebuilt by, beside the records. */
export interface RebuildSettings {
  readonly procedures: readonly Procedure[];
  readonly choices: Choices;
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Changes written down bear on no life. */
function bearing({ procedures, choices: { changes: _changes, ...choices } }: RebuildSettings) {
  return { procedures, choices };
}

/**
 * What answers stand on once settings were changed since the records were read: the records'
 * fingerprint where nothing was, else one of its own, the same again for the same settings.
 * @param atFirst the settings as the records brought them
 */
export async function settingsFingerprint(
  { fingerprint }: ReadReport,
  atFirst: RebuildSettings,
  now: RebuildSettings,
): Promise<string> {
  if (same(bearing(atFirst), bearing(now))) return fingerprint;
  return sha256(`${fingerprint}\n${await sha256(JSON.stringify(bearing(now)))}`);
}
