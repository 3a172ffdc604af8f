'use client';

import { mapsBroughtIn } from '../../_state/columns/brought-in.ts';
import { useMapsBroughtIn } from '../../_state/columns/use-maps-brought-in.ts';

/** What became of column maps that were brought in or let go over the page. */
export function MapsNotice() {
  const said = useMapsBroughtIn();
  if (said.length === 0) return null;
  const refused = said.some((one) => one.refused);
  return (
    <section className="notice" role={refused ? 'alert' : 'status'} data-refused={refused}>
      {said.map(({ text }) => (
        <p key={text}>{text}</p>
      ))}
      <button type="button" className="word" onClick={mapsBroughtIn.dismiss}>
        Put this note away
      </button>
    </section>
  );
}
