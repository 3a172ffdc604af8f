'use client';

interface Props<Word extends string> {
  readonly legend: string;
  readonly words: readonly Word[];
  readonly list: readonly Word[];
  readonly says?: (word: Word) => string;
  readonly onTick: (word: Word) => void;
}

/** The words of a vocabulary, those of a list ticked. */
export function WordTicks<Word extends string>({ legend, words, list, says, onTick }: Props<Word>) {
  return (
    <fieldset className="word-ticks">
      <legend>{legend}</legend>
      {words.map((word) => (
        <label key={word}>
          <input type="checkbox" checked={list.includes(word)} onChange={() => onTick(word)} />
          {says ? says(word) : word}
        </label>
      ))}
    </fieldset>
  );
}
