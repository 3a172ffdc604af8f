import type { TopLevelSpec } from 'vega-lite';

/** The figure as a drawing for a file; Vega is loaded only when one is asked for. */
async function viewOf(spec: TopLevelSpec) {
  const [vega, { compile }, { expressionInterpreter }] = await Promise.all([
    import('vega'),
    import('vega-lite'),
    import('vega-interpreter'),
  ]);
  const runtime = vega.parse(compile(spec).spec, undefined, { ast: true });
  return new vega.View(runtime, { renderer: 'none', expr: expressionInterpreter });
}

export async function figureSvg(spec: TopLevelSpec): Promise<Blob> {
  const view = await viewOf(spec);
  const svg = await view.toSVG();
  view.finalize();
  return new Blob([svg], { type: 'image/svg+xml' });
}

/** Twice as fine as the screen's pixels, for print. */
export async function figurePng(spec: TopLevelSpec): Promise<Blob> {
  const view = await viewOf(spec);
  const canvas = (await view.toCanvas(2)) as unknown as HTMLCanvasElement;
  view.finalize();
  return new Promise((resolve, reject) =>
    canvas.toBlob(
      (blob) => (blob ? resolve(blob) : reject(new Error('the figure could not be drawn as PNG'))),
      'image/png',
    ),
  );
}
