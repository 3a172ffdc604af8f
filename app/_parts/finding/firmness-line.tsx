import type { ReactNode } from 'react';
import { MethodsLink } from '../methods/methods-link.tsx';
import { firmnessWords, type Firmness } from '../../../shared/finding.ts';

const wordOf = (firmness: Firmness): string => firmness.charAt(0).toUpperCase() + firmness.slice(1);

/** Up to four cells of ink; none while it cannot be said yet. */
function FirmnessBar({ firmness }: { firmness: Firmness | null }) {
  const cells = firmness === null ? 0 : firmnessWords.length - firmnessWords.indexOf(firmness);
  return (
    <span className="firmness-bar" aria-hidden="true">
      {firmnessWords.map((word, index) => (
        <i key={word} className={index < cells ? 'inked' : undefined} />
      ))}
    </span>
  );
}

/** How far the answer can be leaned on: ink and a word, the reason beside them. */
export function FirmnessLine({ firmness, reason }: { firmness: Firmness; reason: ReactNode }) {
  return (
    <p className="firmness">
      <FirmnessBar firmness={firmness} />
      <b>
        <span className="unseen">Firmness: </span>
        <MethodsLink anchor="firmness">{wordOf(firmness)}</MethodsLink>
      </b>
      <span>{reason}</span>
    </p>
  );
}

/** The same within a sentence; null while the doubts are being checked. */
export function FirmnessMark({ firmness }: { firmness: Firmness | null }) {
  return (
    <span className="firmness-mark">
      <FirmnessBar firmness={firmness} />
      <span>
        <span className="unseen">{firmness === null ? 'Its doubts are being checked' : 'Firmness: '}</span>
        {firmness === null ? '…' : wordOf(firmness)}
      </span>
    </span>
  );
}
