import type { LivesSource } from '../../lib/lives/index.ts';
import { queryCatalogue } from '../../lib/questions/catalogue.ts';
import type { QuestionId } from '../../shared/finding.ts';
import type { View } from '../../shared/view.ts';

/** The queries behind an answer as text; each parameter stands as `?`, its values in a last line. */
export function queryTexts({ fromRecords }: LivesSource, question: QuestionId, view: View): Record<string, string> {
  return Object.fromEntries(
    Object.entries(queryCatalogue(question, view, fromRecords)).map(([name, { text, values }]) => [
      name,
      values.length === 0 ? text : `${text}\n-- ? = ${values.map((value) => JSON.stringify(value)).join(', ')}`,
    ]),
  );
}
