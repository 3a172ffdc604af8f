import type { QuestionId } from '../../shared/finding.ts';

export interface QuestionPage {
  readonly id: QuestionId;
  readonly path: string;
  readonly short: string;
  readonly title: string;
  /** What its figure is told apart by on the front page until the reader says otherwise, best first. */
  readonly suggestedCuts: readonly (readonly string[])[];
}

/** The questions in the order of the work; the records come before them. */
export const questionPages: readonly QuestionPage[] = [
  {
    ...{ id: 'seal-life', path: '/seal-life/', short: 'How long', title: 'How long do seals last?' },
    suggestedCuts: [['role'], ['lubricant'], ['hub_build'], ['position']],
  },
  {
    ...{ id: 'mean-miles', path: '/mean-miles/', short: 'How often', title: 'How often do wheel ends fail?' },
    suggestedCuts: [['role'], ['lubricant'], ['hub_build'], ['position']],
  },
  {
    ...{ id: 'contamination', path: '/contamination/', short: 'Where soaked', title: 'Where do linings get soaked?' },
    suggestedCuts: [['lubricant'], ['role'], ['hub_build'], ['position']],
  },
  {
    ...{ id: 'causes', path: '/causes/', short: 'Which deviations', title: 'Which deviations go with shorter life?' },
    suggestedCuts: [],
  },
  { id: 'shops', path: '/shops/', short: 'Which shops', title: 'Is a shop really different?', suggestedCuts: [] },
];

export const questionPage = (id: QuestionId): QuestionPage => {
  const page = questionPages.find((candidate) => candidate.id === id);
  if (page === undefined) throw new Error(`no page for the question ${id}`);
  return page;
};
