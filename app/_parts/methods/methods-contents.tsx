import { doubtParts } from '../../../shared/methods/doubts/index.ts';
import { methodParts } from '../../../shared/methods/index.ts';
import { leakRules } from '../../../shared/methods/leak-rules.ts';
import { anchorOf } from './anchor-of.ts';

/** What stands on the page, each with its place. */
export function MethodsContents() {
  return (
    <nav className="methods-contents" aria-label="On this page">
      <ol>
        <li>
          <a href="#methods">How numbers are worked out</a>
          {methodParts.map(({ name, methods }) => (
            <div key={name}>
              <span className="contents-head">{name}</span>
              <ul>
                {methods.map((method) => (
                  <li key={method.id}>
                    <a href={`#${method.id}`}>{method.name}</a>
                  </li>
                ))}
              </ul>
            </div>
          ))}
        </li>
        <li>
          <a href="#firmness">How firm an answer is</a>
        </li>
        <Under id="doubts" name="Doubts" parts={doubtParts.map(({ name }) => name)} />
        <li>
          <a href="#words">Words</a>
        </li>
        <Under id="rules" name="Rules on leaks and soaked linings" parts={leakRules.map(({ where }) => where)} />
        <li>
          <a href="#cautions">At the wheel end</a>
        </li>
        <li>
          <a href="#never">What no number here claims</a>
        </li>
      </ol>
    </nav>
  );
}

function Under({ id, name, parts }: { id: string; name: string; parts: readonly string[] }) {
  return (
    <li>
      <a href={`#${id}`}>{name}</a>
      <ul>
        {parts.map((part) => (
          <li key={part}>
            <a href={`#${anchorOf(id, part)}`}>{part}</a>
          </li>
        ))}
      </ul>
    </li>
  );
}
