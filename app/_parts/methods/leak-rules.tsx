import { leakRules } from '../../../shared/methods/leak-rules.ts';
import { anchorOf } from './anchor-of.ts';

/** What rules say of leaks and soaked linings, each with how far its wording was seen. */
export function LeakRules() {
  return (
    <section className="methods-part" aria-labelledby="rules">
      <h2 id="rules" tabIndex={-1}>
        Rules on leaks and soaked linings
      </h2>
      <p>
        General information, not legal advice, and not complete. In our words; where it says “check”, look the wording
        up before you lean on it. Rules change.
      </p>
      {leakRules.map(({ where, rules }) => (
        <section key={where} aria-labelledby={anchorOf('rules', where)}>
          <h3 id={anchorOf('rules', where)}>{where}</h3>
          <dl className="terms">
            {rules.map(({ section, says, status }) => (
              <div key={section}>
                <dt>{section}</dt>
                <dd>
                  {says} <span className={status === 'wording seen' ? 'status' : 'status unsure'}>({status})</span>
                </dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </section>
  );
}
