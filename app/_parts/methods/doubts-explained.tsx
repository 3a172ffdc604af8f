import { doubtAnchor, doubtParts } from '../../../shared/methods/doubts/index.ts';
import { anchorOf } from './anchor-of.ts';

/** Every doubt that a finding can have: what is looked at, and what it does to the answer. */
export function DoubtsExplained() {
  return doubtParts.map(({ name, doubts }) => (
    <section key={name} aria-labelledby={anchorOf('doubts', name)}>
      <h3 id={anchorOf('doubts', name)}>{name}</h3>
      <dl className="terms">
        {Object.entries(doubts).map(([doubt, { asks, so }]) => (
          <div key={doubt}>
            <dt id={doubtAnchor(doubt) ?? undefined} tabIndex={-1}>
              {doubt}
            </dt>
            <dd>
              {asks} <span className="so">{so}</span>
            </dd>
          </div>
        ))}
      </dl>
    </section>
  ));
}
