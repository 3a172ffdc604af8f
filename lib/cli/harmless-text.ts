/** Text for a terminal: what would move its cursor, colour it or speak to it shows as a dot; lines and tabs stay. */
export const harmlessText = (text: string): string =>
  text.replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]|\r(?!\n)/g, '·');
