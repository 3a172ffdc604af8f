import type { Doubt } from '../../../shared/finding.ts';
import type { DataAccount } from '../../lives/index.ts';
import { percent } from '../words/share-words.ts';
import { count } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** Above this share of rows set aside, what was left out may matter. */
const muchSetAside = 0.05;

/** Rows of the files that could not be used. */
export function setAsideRows(account: DataAccount): Doubt | null {
  const read = account.files.reduce((sum, file) => sum + file.read, 0);
  if (read === 0) return null;
  const share = account.setAside / read;
  const worst = [...account.files].sort((a, b) => b.setAside / (b.read || 1) - a.setAside / (a.read || 1))[0];
  const most =
    worst && worst.setAside > 0 ? ` Most in ${worst.name}: ${count(worst.setAside)} of ${count(worst.read)}.` : '';
  const detail =
    account.setAside === 0
      ? `All ${count(read)} rows read were used.`
      : `${percent(share)} of rows (${count(account.setAside)}) were set aside.${most}`;
  return doubt('Rows set aside', failsIf(share > muchSetAside), detail, 'correcting the rows listed as set aside');
}
