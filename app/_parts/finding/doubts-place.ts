import { figureOf, lightTheme } from '../../../lib/charts/index.ts';
import type { Doubt, Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';

/** The margin beside a figure, in signs a line and pixels a line; a note ends in a gap. */
const [signs, line, gap] = [38, 21, 13];
/** What the answer above the figure and its caption take, and how much of the margin may hang below. */
const [words, hanging] = [260, 150];
/** As wide and as high as a figure beside notes is asked to be. */
const beside = { width: 800, height: 400 };

const lines = (text: string): number => Math.ceil(text.length / signs);
const heightOf = ({ name, detail, settledBy }: Doubt): number =>
  (lines(`${name}. ${detail}`) + lines(`Settled by: ${settledBy}`)) * line + gap;

/**
 * Notes that stand are read beside the figure; where they would run on far below it, side by side beneath
 * it, so that no half of the page lies empty. Told from the texts, before anything is drawn: nothing jumps.
 */
export function doubtsBeneath(finding: Finding, unitSystem: UnitSystem): boolean {
  const standing = finding.doubts.filter(({ state }) => state !== 'holds');
  const notes = standing.reduce((sum, doubt) => sum + heightOf(doubt), 2 * line);
  const figure = figureOf(finding, { ...beside, theme: lightTheme, unitSystem });
  const atRisk = figure.ticks.length > 0 ? (finding.groups.length + 2) * line : 0;
  return notes > words + figure.height + atRisk + hanging;
}
