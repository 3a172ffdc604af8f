/** A text as a string of a style sheet: nothing in it ends the string or the element. */
const quoted = (text: string): string =>
  `"${text.replaceAll(/[^\p{L}\p{N} ,.:;()!?–—-]/gu, (mark) => `\\${(mark.codePointAt(0) ?? 32).toString(16)} `)}"`;

const screen = `
:root { color-scheme: light; font: 15px/1.5 Georgia, 'Times New Roman', serif; color: #000; background: #fff; }
body { max-width: 47rem; margin: 2rem auto; padding: 0 1.25rem; }
h1 { margin: 0 0 .4rem; font-size: 1.75rem; line-height: 1.2; }
h2 { margin: 2rem 0 .5rem; padding-top: .5rem; border-top: 1px solid #000; font-size: 1.2rem; }
h3 { margin: 1.4rem 0 .3rem; font-size: 1.05rem; }
h4 { margin: 1rem 0 .2rem; font: 600 .9rem/1.4 system-ui, sans-serif; }
p { margin: .35rem 0 .6rem; }
.written { white-space: pre-line; overflow-wrap: anywhere; }
.unwritten, .quiet { color: #3d3d3d; }
.unwritten { font-style: italic; }
.small, table, .firmness, figcaption, .doubts, dl { font: .85rem/1.4 system-ui, sans-serif; }
.answer { font-size: 1.1rem; line-height: 1.4; }
.invented, .other-records { padding: .3rem .6rem; border: 1px solid #000; font: 600 .9rem/1.4 system-ui, sans-serif; }
table { border-collapse: collapse; width: 100%; margin: .6rem 0 1rem; }
caption { padding-bottom: .3rem; text-align: left; color: #3d3d3d; }
th, td { padding: .25rem .7rem .25rem 0; border-bottom: 1px solid #c8c8c8; text-align: left; vertical-align: top; }
thead th { vertical-align: bottom; font-weight: 600; }
.number { text-align: right; font-variant-numeric: tabular-nums; }
td small { display: block; color: #3d3d3d; font-size: .8em; white-space: nowrap; }
figure { margin: .8rem 0; }
/* Names at the edge are as wide as the reader's own typeface makes them. */
figure svg { display: block; max-width: 100%; height: auto; overflow: visible; }
/* They were measured in the app's typeface: others are brought to its x-height, and so near its width. */
figure svg { font-size-adjust: 0.486; }
figure img { display: block; max-width: 100%; max-height: 22rem; }
figcaption { color: #3d3d3d; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2rem 1rem; margin: .5rem 0; }
dt { font-weight: 600; } dd { margin: 0; overflow-wrap: anywhere; }
.fingerprint { font: .78rem/1.4 ui-monospace, monospace; overflow-wrap: anywhere; }
.sign td { height: 2.2rem; }
.sign th:last-child { width: 26%; }
.day { white-space: nowrap; }
h5 { margin: .5rem 0 .2rem; font: 600 .82rem/1.4 system-ui, sans-serif; }
.gaps { margin: 0 0 .8rem; padding: 0; list-style: none; columns: 3 13rem; column-gap: 2rem; font: .8rem/1.45 system-ui, sans-serif; }
.gaps li { display: flex; justify-content: space-between; gap: .5rem; border-bottom: 1px solid #e2e2e2; }
.gaps li span:last-child { font-variant-numeric: tabular-nums; white-space: nowrap; }
.reasons span { display: block; }
.short { margin: 1rem 0; padding: .2rem 1rem .6rem; border: 1px solid #000; }
.short h2 { margin: .4rem 0; padding: 0; border: 0; }
.short dl { font: .95rem/1.45 Georgia, 'Times New Roman', serif; }
.short ul { margin: 0; padding-left: 1.1rem; }
.steps { display: grid; grid-template-columns: 1fr 1fr; gap: 0 1.5rem; }
.wide { overflow-x: auto; }
@media (max-width: 600px) { .steps, dl { grid-template-columns: 1fr; } }`;

const print = `
@media print {
  :root { font-size: 10.5pt; }
  body { max-width: none; margin: 0; padding: 0; }
  h1 { font-size: 19pt; } h2 { font-size: 13.5pt; }
  h2, h3, h4, caption { break-after: avoid; }
  figure, tr, li, .keep { break-inside: avoid; }
  thead { display: table-header-group; }
  table { font-size: 8.2pt; }
  p { orphans: 3; widows: 3; }
  .wide { overflow: visible; }
}`;

/** Paper: its size is the reader's, A4 and Letter alike; every page says whose it is and which. */
const pages = (head: string, invented: boolean): string => `
@page {
  margin: 20mm 17mm 19mm;
  @top-left { content: ${quoted(head)}; font: 8pt system-ui, sans-serif; color: #3d3d3d; }
  @top-right { content: ${quoted(invented ? 'Invented records: no real fleet' : '')}; font: 600 8pt system-ui, sans-serif; }
  @bottom-left { content: "Goes with, not caused by. Clears no wheel end for service."; font: 8pt system-ui, sans-serif; color: #3d3d3d; }
  @bottom-right { content: counter(page) " of " counter(pages); font: 8pt system-ui, sans-serif; }
}
@page :first { @top-left { content: ""; } }`;

const longestHead = 70;

/** The one style sheet of a brief. @param head what every page but the first repeats */
export function briefStyle(head: string, invented: boolean): string {
  const short = head.length > longestHead ? `${head.slice(0, longestHead)}…` : head;
  return `${screen}${print}${pages(short, invented)}`;
}
