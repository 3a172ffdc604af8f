/** A piece of HTML; only `html` makes one, so that text never turns into markup. */
export interface Markup {
  readonly markup: string;
}

const escapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
const escaped = (text: string): string => text.replaceAll(/[&<>"']/g, (mark) => escapes[mark] as string);

type Piece = string | number | Markup | readonly Markup[];

const written = (piece: Piece): string =>
  typeof piece === 'object'
    ? 'markup' in piece
      ? piece.markup
      : piece.map(({ markup }) => markup).join('')
    : escaped(String(piece));

/** HTML through a tag: text and numbers are escaped, markup is taken as it is. */
export const html = (texts: TemplateStringsArray, ...pieces: readonly Piece[]): Markup => ({
  markup: texts.reduce((all, text, index) => all + written(pieces[index - 1] as Piece) + text),
});

export const nothing: Markup = { markup: '' };

/** A text whose days stay on one line each: a browser breaks after their hyphens. */
export const daysWhole = (text: string): Markup =>
  html`${text
    .split(/(\d{4}-\d{2}-\d{2})/)
    .map((part, at) => (at % 2 === 1 ? html`<span class="day">${part}</span>` : html`${part}`))}`;

/** A table with a caption, which scrolls in itself where it must; cells that are numbers stand to the right. */
export function tableMarkup(
  caption: string,
  heads: readonly string[],
  rows: readonly (readonly (string | number)[])[],
): Markup {
  const cell = (value: string | number) =>
    typeof value === 'number'
      ? html`<td class="number">${value.toLocaleString('en-US')}</td>`
      : html`<td>${daysWhole(value)}</td>`;
  return html`<div class="wide">
    <table>
      <caption>
        ${caption}
      </caption>
      <thead>
        <tr>
          ${heads.map((head, at) =>
            typeof rows[0]?.[at] === 'number'
              ? html`<th scope="col" class="number">${head}</th>`
              : html`<th scope="col">${head}</th>`,
          )}
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          (row) =>
            html`<tr>
              ${row.map(cell)}
            </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}
