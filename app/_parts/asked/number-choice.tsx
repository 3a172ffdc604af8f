import { useState, type SubmitEvent } from 'react';

interface Props {
  readonly label: string;
  readonly value: number;
  /** Says what can be taken, where what was typed cannot. */
  readonly rule: string;
  readonly isUsable: (typed: number) => boolean;
  readonly act: string;
  readonly onValue: (value: number) => void;
}

/** A number to be typed; taken only when it can be used. */
export function NumberChoice({ label, value, rule, isUsable, act, onValue }: Props) {
  const [text, setText] = useState(String(Number(value.toPrecision(6))));
  const bare = text.replaceAll(/[ ,]/g, '');
  const typed = bare === '' ? Number.NaN : Number(bare);
  const usable = isUsable(typed);
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    if (usable) onValue(typed);
  };
  return (
    <form className="choices" onSubmit={submit}>
      <label className="stacked">
        {label}
        <input
          inputMode="decimal"
          value={text}
          aria-invalid={!usable}
          onChange={(event) => setText(event.target.value)}
        />
      </label>
      {!usable && <p role="alert">{rule}</p>}
      <button type="submit" className="word" disabled={!usable}>
        {act}
      </button>
    </form>
  );
}
