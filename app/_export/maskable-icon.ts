/** Systems cut icons to a circle of four fifths of their width: the drawing of the icon goes into that, its ground to the edge. */
export function maskableIcon(icon: string): string {
  const ground = /<rect[^>]*fill="(#[0-9a-f]{6})"/.exec(icon)?.[1];
  const drawing = /^<svg[^>]*viewBox="0 0 32 32"[^>]*>(.*)<\/svg>\s*$/s.exec(icon)?.[1];
  if (ground === undefined || drawing === undefined) throw new Error('the icon is not drawn on a ground of 32 by 32');
  const inside = `<svg x="5.5" y="5.5" width="21" height="21" viewBox="0 0 32 32">${drawing}</svg>`;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" fill="${ground}"/>${inside}</svg>`;
}
