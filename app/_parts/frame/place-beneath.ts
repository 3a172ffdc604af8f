const edge = 8;

/** Puts an opening sheet under the word that opens it, as wide as asked where the window allows, never off it. */
export function placeBeneath(word: HTMLElement, sheet: HTMLElement, most: number): void {
  const { left, bottom } = word.getBoundingClientRect();
  // The body, not the window: room kept for a scroll bar is none of it.
  const room = document.body.clientWidth;
  const width = Math.min(most, room - 2 * edge);
  const from = Math.max(edge, Math.min(left, room - width - edge));
  Object.assign(sheet.style, {
    ...{ width: `${width}px`, left: `${from + window.scrollX}px`, top: `${bottom + window.scrollY + 6}px` },
  });
}
