import { cautionLine, findingCautions, wheelEndCautions } from '../../../shared/cautions.ts';
import { FootActs } from './foot-acts.tsx';

/** The cautions, on every page and sheet; in full for whoever wants them. */
export function PageFoot() {
  return (
    <footer className="foot">
      <p>{cautionLine}</p>
      <details>
        <summary>All cautions</summary>
        <h2>At the wheel end</h2>
        <ul>
          {wheelEndCautions.map(({ name, long }) => (
            <li key={name}>{long}</li>
          ))}
        </ul>
        <h2>What no finding says</h2>
        <ul>
          {findingCautions.map(({ name, long }) => (
            <li key={name}>{long}</li>
          ))}
        </ul>
      </details>
      <FootActs />
    </footer>
  );
}
