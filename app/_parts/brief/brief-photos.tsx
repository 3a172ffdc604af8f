'use client';

import { useRef, useState, type ChangeEvent } from 'react';
import type { WordingWarning } from '../../../lib/brief/wording-checks.ts';
import type { BriefPhoto } from '../../../shared/brief.ts';
import { briefStore } from '../../_state/brief/brief-store.ts';
import { messageOf } from '../../_state/record-sets.ts';
import { BriefField } from './brief-field.tsx';
import { pictureOf } from './picture-of.ts';

const mostPhotos = 60;

const captioned = (id: string, caption: string) =>
  briefStore.edit((brief) => ({
    ...brief,
    photos: brief.photos.map((photo) => (photo.id === id ? { ...photo, caption } : photo)),
  }));

const takeOut = (id: string) =>
  briefStore.edit((brief) => ({ ...brief, photos: brief.photos.filter((photo) => photo.id !== id) }));

/** Pictures of teardowns, held in the brief itself and nowhere else. */
export function BriefPhotos({
  photos,
  warnings,
}: {
  photos: readonly BriefPhoto[];
  warnings: readonly WordingWarning[];
}) {
  const input = useRef<HTMLInputElement>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const take = async ({ target }: ChangeEvent<HTMLInputElement>) => {
    const files = [...(target.files ?? [])];
    target.value = '';
    setTrouble(null);
    for (const file of files.slice(0, mostPhotos - photos.length)) {
      try {
        const picture = await pictureOf(file);
        const photo = { id: crypto.randomUUID(), name: file.name.slice(0, 300), caption: '', picture };
        briefStore.edit((brief) => ({ ...brief, photos: [...brief.photos, photo] }));
      } catch (error) {
        setTrouble(`${file.name} is no picture that can be shown (${messageOf(error)}).`);
      }
    }
  };
  return (
    <div className="brief-photos">
      <button type="button" className="word" onClick={() => input.current?.click()}>
        Add photos…
      </button>
      <input
        ref={input}
        type="file"
        hidden
        multiple
        accept="image/*"
        aria-label="Photos"
        data-open="photos"
        onChange={(event) => void take(event)}
      />
      <span className="quiet">
        {' '}
        They stay in this browser and in the files you save; where they were taken is left out.
      </span>
      {trouble !== null && <p role="alert">{trouble}</p>}
      <ul>
        {photos.map(({ id, name, caption, picture }, at) => (
          <li key={id} data-photo={id}>
            {/* A picture of the reader's own, as data: nothing to fetch or optimise. */}
            <img src={picture} alt={caption === '' ? name : caption} />
            <BriefField
              {...{
                name: `photo-${at + 1}`,
                label: `Photo ${at + 1}`,
                hint: 'What it shows, on which unit',
                text: caption,
              }}
              warnings={warnings.filter(({ field }) => field === id)}
              onText={(text) => captioned(id, text)}
            />
            <button type="button" className="word" onClick={() => takeOut(id)}>
              Take out<span className="unseen"> photo {at + 1}</span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
