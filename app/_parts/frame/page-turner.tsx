const shown = (value: number) => value.toLocaleString('en-US');

interface PageTurnerProps {
  readonly label: string;
  readonly offset: number;
  /** Rows of a page, and of all. */
  readonly rows: number;
  readonly total: number;
  /** What lies before the page and after it. */
  readonly words: readonly [before: string, after: string];
  readonly onTurn: (offset: number) => void;
}

/** Goes through a long table a page at a time; nothing where one page holds it all. */
export function PageTurner({ label, offset, rows, total, words: [before, after], onTurn }: PageTurnerProps) {
  if (total <= rows) return null;
  const last = Math.min(total, offset + rows);
  return (
    <span className="pages" role="group" aria-label={label}>
      <button type="button" className="word" disabled={offset === 0} onClick={() => onTurn(Math.max(0, offset - rows))}>
        {before}
      </button>
      <span role="status">
        {shown(offset + 1)} to {shown(last)} of {shown(total)}
      </span>
      <button type="button" className="word" disabled={last >= total} onClick={() => onTurn(offset + rows)}>
        {after}
      </button>
    </span>
  );
}
