import { figureOf, printTheme, type Figure } from '../charts/index.ts';
import type { BriefEntry } from '../../shared/brief.ts';

/** As wide as the text of a brief. */
const size = { width: 700, height: 330 };

/** A finding's figure for paper, the numbers at risk within it. */
export const briefFigure = ({ finding, units }: Pick<BriefEntry, 'finding' | 'units'>): Figure['spec'] =>
  figureOf(finding, { ...size, theme: printTheme, unitSystem: units, atRisk: true }).spec;
