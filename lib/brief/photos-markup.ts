import type { BriefPhoto } from '../../shared/brief.ts';
import { html, type Markup } from './markup.ts';

/** Pictures of section 8, each with its caption; held in the page itself. */
export const photosMarkup = (photos: readonly BriefPhoto[]): Markup =>
  html`${photos.map(
    ({ name, caption, picture }, at) =>
      html`<figure>
        <img src="${picture}" alt="${caption === '' ? name : caption}" />
        <figcaption>Photo ${at + 1}. ${caption === '' ? name : caption}</figcaption>
      </figure>`,
  )}`;
