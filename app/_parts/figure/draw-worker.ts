import * as Comlink from 'comlink';
import { asOneImage, drawnSvg, drawnView } from '../../../lib/charts/draw-svg.ts';
import type { Drawing } from './drawing.ts';

const typeface = new URL(
  '@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2',
  import.meta.url,
);

/** A worker has no style sheet: the typeface is fetched once, by the first picture that needs it. */
let loading: Promise<unknown> | null = null;
async function withTypeface(): Promise<void> {
  const { fonts } = self as unknown as { fonts?: FontFaceSet };
  if (!fonts) return;
  const face = new FontFace('Source Sans 3 Variable', `url(${typeface.href})`, { weight: '200 900' });
  loading ??= face.load().then(() => fonts.add(face));
  // Without it the picture is still right, in the system's typeface.
  await loading.catch(() => undefined);
}

const finer = 2;

/** Draws with Vega away from the page's thread, which a figure would else hold up for a tenth of a second. */
const drawing: Drawing = {
  async svg(spec) {
    return asOneImage(await drawnSvg(spec));
  },
  async png(spec) {
    await withTypeface();
    const { padding, width, height, background } = spec as unknown as Sized;
    const canvas = new OffscreenCanvas(
      (padding.left + width + padding.right) * finer,
      (padding.top + height + padding.bottom) * finer,
    );
    const externalContext = canvas.getContext('2d');
    if (externalContext === null) throw new Error('this browser gives a worker no canvas');
    externalContext.fillStyle = background;
    externalContext.fillRect(0, 0, canvas.width, canvas.height);
    const view = drawnView(spec);
    await view.toCanvas(finer, { externalContext });
    view.finalize();
    return canvas.convertToBlob({ type: 'image/png' });
  },
};

/** What every figure of lib/charts says of its size. */
interface Sized {
  readonly padding: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly width: number;
  readonly height: number;
  readonly background: string;
}

Comlink.expose(drawing);
