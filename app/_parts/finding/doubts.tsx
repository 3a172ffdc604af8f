import { SetAsideLink } from '../records/set-aside-link.tsx';
import type { Doubt } from '../../../shared/finding.ts';
import { doubtAnchor } from '../../../shared/methods/doubts/index.ts';
import { MethodsLink } from '../methods/methods-link.tsx';

const marks = { fails: '†', 'cannot-tell': '?', holds: '·' } as const;
const says = {
  fails: 'Stands against the answer: ',
  'cannot-tell': 'Cannot be told: ',
  holds: 'Checked, holds: ',
} as const;

const standing = ({ state }: Doubt): boolean => state !== 'holds';

/** Null while they are being checked. */
export function DoubtsSoFar({ doubts }: { doubts: readonly Doubt[] | null }) {
  if (doubts !== null) return <StandingDoubts doubts={doubts} />;
  return (
    <aside className="doubts" aria-labelledby="doubts">
      <h2 id="doubts">Doubts</h2>
      <p className="doubt-key">Not all checked yet.</p>
    </aside>
  );
}

/** Doubts that stand, those that fail first, as notes in the margin; beneath the figure on a narrow screen. */
function StandingDoubts({ doubts }: { doubts: readonly Doubt[] }) {
  const fails = doubts.filter(({ state }) => state === 'fails');
  const open = doubts.filter(({ state }) => state === 'cannot-tell');
  const held = doubts.length - fails.length - open.length;
  return (
    <aside className="doubts" aria-labelledby="doubts">
      <h2 id="doubts">Doubts</h2>
      <DoubtList doubts={[...fails, ...open]} />
      {held > 0 && (
        <p className="doubt-key">
          {fails.length + open.length === 0 ? 'None stands. ' : ''}
          <a href="#held-doubts">{held === 1 ? 'One was checked and holds' : `${held} were checked and hold`}</a>
          {fails.length > 0 && '; † stands against the answer'}
          {open.length > 0 && '; ? cannot be told'}.
        </p>
      )}
    </aside>
  );
}

/** What else could have made the answer wrong, and does not. */
export function HeldDoubts({ doubts }: { doubts: readonly Doubt[] }) {
  const held = doubts.filter((doubt) => !standing(doubt));
  if (held.length === 0) return null;
  return (
    <section className="held-doubts" aria-labelledby="held-doubts">
      <h2 id="held-doubts">Checked, and holds</h2>
      <DoubtList doubts={held} />
    </section>
  );
}

function DoubtList({ doubts }: { doubts: readonly Doubt[] }) {
  if (doubts.length === 0) return null;
  return (
    <ul>
      {doubts.map(({ name, state, detail, settledBy }) => (
        <li key={name} className={`doubt ${state}`}>
          <span className="doubt-mark" aria-hidden="true">
            {marks[state]}
          </span>
          <span className="unseen">{says[state]}</span>
          <b>
            <DoubtName name={name} />
          </b>{' '}
          {detail}
          {settledBy !== '' && <small>Settled by: {settledBy}</small>}
          {name === 'Rows set aside' && <SetAsideLink />}
        </li>
      ))}
    </ul>
  );
}

/** The name of a doubt, leading to where it is explained. */
function DoubtName({ name }: { name: string }) {
  const anchor = doubtAnchor(name);
  return anchor === null ? withStop(name) : <MethodsLink anchor={anchor}>{withStop(name)}</MethodsLink>;
}

const withStop = (name: string) => (/[.?!]$/.test(name) ? name : `${name}.`);
