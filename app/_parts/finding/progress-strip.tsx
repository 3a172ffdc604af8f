'use client';

import type { FindingInUse } from '../../_state/use-finding.ts';

type Props = Pick<FindingInUse, 'settled' | 'first' | 'progress' | 'stopped' | 'stop' | 'goOn'>;

/** How far a long question is, and the way out; what stands meanwhile is said to be the first of it. */
export function ProgressStrip({ settled, first, progress, stopped, stop, goOn }: Props) {
  if (stopped)
    return (
      <div className="progress-strip" data-progress="stopped">
        <p role="status">Stopped: what stands here is not all, and its doubts were not all checked.</p>
        <button type="button" className="word" onClick={goOn}>
          Go on
        </button>
      </div>
    );
  if (settled || progress == null) return null;
  const { done, of, doing } = progress;
  return (
    <div className="progress-strip" data-progress="working">
      <p role="status">
        {first ? 'A first answer; still being worked out: ' : 'Being worked out: '}
        {doing} ({(done + 1).toLocaleString('en-US')} of {of.toLocaleString('en-US')})
      </p>
      <progress aria-label="Working it out" value={done} max={Math.max(1, of)} />
      <button type="button" className="word" onClick={stop}>
        Stop
      </button>
    </div>
  );
}
