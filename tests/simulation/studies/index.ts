import type { Study } from '../study.ts';
import { curveStudies } from './curves.ts';
import { rateStudies } from './rates.ts';

/** Every study, in the order of the table. */
export const studies: readonly Study[] = [...curveStudies, ...rateStudies];
