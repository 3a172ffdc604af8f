'use client';

import { useRef, type ChangeEvent } from 'react';

interface Props {
  /** What pressing it does. */
  readonly act: string;
  /** What the file is, for those who do not see the button. */
  readonly label: string;
  readonly kind: string;
  readonly onFile: (file: File) => void;
}

/** Takes one JSON file; the same one can be taken again after it was changed. */
export function JsonFileButton({ act, label, kind, onFile }: Props) {
  const input = useRef<HTMLInputElement>(null);
  const take = ({ target }: ChangeEvent<HTMLInputElement>) => {
    const [file] = target.files ?? [];
    target.value = '';
    if (file !== undefined) onFile(file);
  };
  return (
    <>
      <button type="button" className="word" onClick={() => input.current?.click()}>
        {act}
      </button>
      <input
        ref={input}
        type="file"
        hidden
        accept=".json,application/json"
        aria-label={label}
        data-open={kind}
        onChange={take}
      />
    </>
  );
}
