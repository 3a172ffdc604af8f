import type { EndShape, MarkKind } from '../../../lib/charts/index.ts';

const lozenge = (x: number, y: number, half: number): string =>
  `M${x} ${y - half}L${x + half} ${y}L${x} ${y + half}L${x - half} ${y}Z`;
const triangle = (x: number, y: number): string => `M${x} ${y - 5}L${x + 5} ${y + 4}H${x - 5}Z`;

/** How a life ended: full where the part failed, open where it is censored; each censored end has a form of its own. */
export function EndMark({ end, x, y }: { end: EndShape; x: number; y: number }) {
  switch (end) {
    case 'failed':
      return <path className="strip-full" d={lozenge(x, y, 7)} />;
    case 'other-failed':
      return <path className="strip-open" d={lozenge(x, y, 6.5)} />;
    case 'renewed':
      return <circle className="strip-open" cx={x} cy={y} r={4.5} />;
    case 'not-told':
      return <circle className="strip-open strip-dashed" cx={x} cy={y} r={5} />;
    case 'left':
      return <path className="strip-line" d={`M${x - 4} ${y - 8}H${x}V${y + 8}H${x - 4}`} />;
    case 'running':
      return <path className="strip-line" d={`M${x - 7} ${y - 6}L${x} ${y}L${x - 7} ${y + 6}`} />;
  }
}

/** What else was written down there. */
export function EventMark({ kind, x, y }: { kind: MarkKind; x: number; y: number }) {
  switch (kind) {
    case 'dry':
      return <path className="strip-check" d={`M${x} ${y - 4}V${y + 4}`} />;
    case 'damp':
      return <path className="strip-open" d={triangle(x, y)} />;
    case 'leak':
      return <path className="strip-full" d={triangle(x, y)} />;
    case 'service':
      return <rect className="strip-open" x={x - 3.5} y={y - 3.5} width={7} height={7} />;
    case 'other-failure':
      return (
        <path className="strip-line" d={`M${x - 4} ${y - 4}L${x + 4} ${y + 4}M${x + 4} ${y - 4}L${x - 4} ${y + 4}`} />
      );
    case 'report':
      return <path className="strip-full" d={lozenge(x, y, 4)} />;
  }
}

const ends: readonly (readonly [EndShape, string])[] = [
  ['failed', 'failed'],
  ['renewed', 'renewed, not failed'],
  ['other-failed', 'another part failed'],
  ['not-told', 'renewed, why not told'],
  ['left', 'left the fleet'],
  ['running', 'still running'],
];

const marks: readonly (readonly [MarkKind, string])[] = [
  ['dry', 'checked, dry'],
  ['damp', 'damp'],
  ['leak', 'leaking'],
  ['service', 'other work'],
  ['other-failure', 'other failure'],
  ['report', 'further report'],
];

/** What the shapes mean, beneath the strips. */
export function StripKey() {
  return (
    <ul className="strip-key" aria-label="What the shapes mean">
      {ends.map(([end, says]) => (
        <li key={end}>
          <svg viewBox="0 0 24 20" width="24" height="20" aria-hidden="true">
            <path className="strip-life-line" d="M0 10H14" />
            <EndMark end={end} x={14} y={10} />
          </svg>
          {says}
        </li>
      ))}
      {marks.map(([kind, says]) => (
        <li key={kind}>
          <svg viewBox="0 0 14 20" width="14" height="20" aria-hidden="true">
            <EventMark kind={kind} x={7} y={10} />
          </svg>
          {says}
        </li>
      ))}
      <li>
        <svg viewBox="0 0 24 20" width="24" height="20" aria-hidden="true">
          <path className="strip-wait" d="M0 10H24" />
        </svg>
        waiting for repair
      </li>
    </ul>
  );
}
