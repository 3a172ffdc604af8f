import type { Study } from '../study.ts';
import { causesStudies } from './causes.ts';
import { comparisonStudies } from './comparisons.ts';
import { countStudies } from './counts.ts';
import { curveStudies } from './curves.ts';
import { decisionStudies } from './decisions.ts';
import { detectionDelayStudies } from './detection-delay.ts';
import { detectionStudies } from './detection.ts';
import { excessStudies } from './excess.ts';
import { incidenceStudies } from './incidence.ts';
import { lifeDistributionStudies } from './life-distributions.ts';
import { rateStudies } from './rates.ts';
import { recurrentStudies } from './recurrent.ts';
import { shopStudies } from './shops.ts';

/** Every study, in the order of the table. */
export const studies: readonly Study[] = [
  ...curveStudies,
  ...detectionStudies,
  ...detectionDelayStudies,
  ...incidenceStudies,
  ...lifeDistributionStudies,
  ...comparisonStudies,
  ...excessStudies,
  ...shopStudies,
  ...recurrentStudies,
  ...rateStudies,
  ...countStudies,
  ...decisionStudies,
  ...causesStudies,
];
