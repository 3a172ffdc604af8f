import type { View } from '../../../shared/view.ts';
import type { QuestionPage } from '../contents.ts';

/** The reader's view, told apart as suits the question where the reader has not said: by what is not narrowed yet. */
export function glanceView(asked: View, { suggestedCuts }: QuestionPage): View {
  // Looking into one deviation takes long, and shows on its own page alone.
  const view = { ...asked, deviation: null };
  if (view.by.length > 0) return view;
  const single = (column: string) => view.where[column]?.length === 1;
  const left = suggestedCuts.map((cut) => cut.filter((column) => !single(column)));
  return { ...view, by: [...(left.find((cut) => cut.length > 0) ?? [])] };
}
