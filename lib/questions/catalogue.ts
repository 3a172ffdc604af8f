import type { QuestionId } from '../../shared/finding.ts';
import type { View } from '../../shared/view.ts';
import type { Statement } from '../engine/statement.ts';
import { contaminationQueries } from './contamination.ts';
import { meanMilesQueries } from './mean-miles.ts';
import { sealLifeQueries } from './seal-life.ts';

/**
 * Every statement a question runs under a view, by what it is for; the tests have both engines
 * explain and run each, and receipts show them.
 * @param fromRecords whether inspections stand behind the lives (`LivesSource.fromRecords`)
 */
export const queryCatalogue: Readonly<
  Record<QuestionId, (view: View, fromRecords: boolean) => Readonly<Record<string, Statement>>>
> = {
  'seal-life': sealLifeQueries,
  'mean-miles': meanMilesQueries,
  contamination: contaminationQueries,
};
