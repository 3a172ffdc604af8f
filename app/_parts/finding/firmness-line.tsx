import type { ReactNode } from 'react';
import { MethodsLink } from '../methods/methods-link.tsx';
import { firmnessWords, type Firmness } from '../../../shared/finding.ts';

/** How far the answer can be leaned on: up to four cells of ink and a word; the reason beside it. */
export function FirmnessLine({ firmness, reason }: { firmness: Firmness; reason?: ReactNode }) {
  const word = firmness.charAt(0).toUpperCase() + firmness.slice(1);
  const cells = firmnessWords.length - firmnessWords.indexOf(firmness);
  return (
    <p className="firmness">
      <span className="firmness-bar" aria-hidden="true">
        {firmnessWords.map((word, index) => (
          <i key={word} className={index < cells ? 'inked' : undefined} />
        ))}
      </span>
      <b>
        <span className="unseen">Firmness: </span>
        {reason ? <MethodsLink anchor="firmness">{word}</MethodsLink> : word}
      </b>
      {reason && <span>{reason}</span>}
    </p>
  );
}
