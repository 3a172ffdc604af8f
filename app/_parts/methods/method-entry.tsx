import type { Method } from '../../../shared/methods/method.ts';
import { FormulaView } from './formula-view.tsx';

/** One method in half a screen. */
export function MethodEntry({ method }: { method: Method }) {
  const { id, name, answers, formulas, where, assumes, misleads, sources } = method;
  return (
    <article className="method">
      <h4 id={id} tabIndex={-1}>
        {name}
      </h4>
      <p>{answers}</p>
      {formulas.map((formula) => (
        <div
          key={JSON.stringify(formula)}
          className="formula-line"
          role="group"
          aria-label="Formula, scrolls sideways"
          tabIndex={0}
        >
          <FormulaView formula={formula} />
        </div>
      ))}
      <p className="where">{where}</p>
      <dl>
        <dt>Assumes</dt>
        <dd>{assumes}</dd>
        <dt>Misleads</dt>
        <dd>{misleads}</dd>
        <dt>Source</dt>
        <dd>
          {sources.map((source) => (
            <div key={source}>{source}</div>
          ))}
        </dd>
      </dl>
    </article>
  );
}
