import { sha256 } from 'hash-wasm';
import { canonicalChange, type ChangeRecord } from '../../../shared/change-record.ts';

/** SHA-256 of the canonical content, hex: a copy that gives another one was altered. */
export const changeFingerprint = (record: ChangeRecord): Promise<string> => sha256(canonicalChange(record));
