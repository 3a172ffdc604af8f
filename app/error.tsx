'use client';

import { recordSets } from './_state/record-sets.ts';

/** A page that could not be shown: what went wrong, and two ways on. */
export default function ErrorPage({ error, reset }: { error: Error; reset: () => void }) {
  const over = () => {
    recordSets.forget();
    reset();
  };
  return (
    <section className="notice trouble" role="alert">
      <h1>This page could not be shown</h1>
      <p>Your files are untouched. The page says: {error.message}</p>
      <p className="open-acts">
        <button type="button" className="main-act" onClick={reset}>
          Try again
        </button>
        <button type="button" className="word" onClick={over}>
          Forget the records and start over
        </button>
      </p>
    </section>
  );
}
