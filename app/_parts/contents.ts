import type { QuestionId } from '../../shared/finding.ts';

/** What the questions are told apart into, in the order of the work. */
export const questionParts = {
  life: 'How parts last',
  why: 'Why they fail',
  next: 'What next',
} as const;
export type QuestionPart = keyof typeof questionParts;

export interface QuestionPage {
  readonly id: QuestionId;
  readonly path: string;
  readonly short: string;
  readonly title: string;
  readonly part: QuestionPart;
  /** Answered on the front page in a sentence and a figure; the others stand there as links. */
  readonly atAGlance: boolean;
  /** What the scope says it is told apart by where the reader says nothing; null where it tells its own groups apart. */
  readonly apart?: string | null;
  /** What its figure is told apart by on the front page until the reader says otherwise, best first. */
  readonly suggestedCuts: readonly (readonly string[])[];
}

const cutsOfRates = [['role'], ['lubricant'], ['hub_build'], ['position']] as const;
const glance = (suggestedCuts: QuestionPage['suggestedCuts']) => ({ atAGlance: true, suggestedCuts });
const noGlance = { atAGlance: false, suggestedCuts: [] } as const;

/** Every question that has a page, part by part in the order of the work; numbered, listed and turned by this. */
export const questionPages: readonly QuestionPage[] = [
  {
    ...{ id: 'seal-life', path: '/seal-life/', short: 'How long', title: 'How long do seals last?' },
    ...{ part: 'life', ...glance(cutsOfRates) },
  },
  {
    ...{ id: 'mean-miles', path: '/mean-miles/', short: 'How often', title: 'How often do wheel ends fail?' },
    ...{ part: 'life', ...glance(cutsOfRates) },
  },
  {
    ...{ id: 'contamination', path: '/contamination/', short: 'Where soaked', title: 'Where do linings get soaked?' },
    ...{ part: 'life', ...glance([['lubricant'], ['role'], ['hub_build'], ['position']]) },
  },
  {
    ...{ id: 'detection', path: '/detection/', short: 'Detection lag', title: 'Are leaks found late?' },
    ...{ part: 'life', apart: 'lubricant', ...noGlance },
  },
  {
    ...{ id: 'repeats', path: '/repeats/', short: 'Repeats', title: 'Do repaired wheel ends fail again?' },
    ...{ part: 'life', apart: null, ...noGlance },
  },
  {
    ...{ id: 'causes', path: '/causes/', short: 'Which deviations', title: 'Which deviations go with shorter life?' },
    ...{ part: 'why', ...glance([]) },
  },
  {
    ...{ id: 'shops', path: '/shops/', short: 'Which shops', title: 'Is a shop really different?' },
    ...{ part: 'why', ...glance([]) },
  },
  {
    ...{ id: 'dose', path: '/dose/', short: 'Dose', title: 'How much does the measured value matter?' },
    ...{ part: 'why', apart: null, ...noGlance },
  },
  {
    ...{ id: 'rules', path: '/rules/', short: 'Rule strip', title: 'Does the answer depend on a choice?' },
    ...{ part: 'why', ...noGlance },
  },
  {
    ...{ id: 'renewal', path: '/renewal/', short: 'Renewal', title: 'When does planned renewal pay?' },
    ...{ part: 'next', ...noGlance },
  },
  {
    ...{ id: 'ahead', path: '/ahead/', short: 'Ahead', title: 'What is coming?' },
    ...{ part: 'next', ...glance([['shop'], ['role'], ['position']]) },
  },
  {
    ...{ id: 'after-change', path: '/after-change/', short: 'After a change', title: 'Did the change work?' },
    ...{ part: 'next', ...noGlance },
  },
  {
    ...{ id: 'savings', path: '/savings/', short: 'Savings', title: 'What would fewer deviations save?' },
    ...{ part: 'next', ...noGlance },
  },
];

export const pagesOfPart = (part: QuestionPart): readonly QuestionPage[] =>
  questionPages.filter((page) => page.part === part);

/** The parts that have a page. */
export const partsInUse = (Object.keys(questionParts) as QuestionPart[]).filter((part) => pagesOfPart(part).length > 0);

export interface PlainPage {
  readonly path: string;
  readonly short: string;
}

/** Before the questions: the front page and what they are asked of. */
export const pagesBefore: readonly PlainPage[] = [
  { path: '/', short: 'At a glance' },
  { path: '/records/', short: 'Records' },
];

/** Every method, doubt, word and rule. */
export const methodsPage = '/methods/';

/** After the questions: what the answers stand on, and what is made of them. */
export const pagesAfter: readonly PlainPage[] = [
  { path: '/lives/', short: 'Lives' },
  { path: '/procedure/', short: 'Procedure' },
  { path: '/brief/', short: 'Brief' },
  { path: methodsPage, short: 'Methods' },
];

/** Pages whose answers hang on the scope; a page that is none of ours has no scope either. */
export const hasScope = (path: string): boolean =>
  ['/', '/lives/', ...questionPages.map((page) => page.path)].includes(path.endsWith('/') ? path : `${path}/`);

/** Where opening leads that has stopped; on nobody's list. */
export const columnsPage = '/records/columns/';

export const questionPage = (id: QuestionId): QuestionPage => {
  const page = questionPages.find((candidate) => candidate.id === id);
  if (page === undefined) throw new Error(`no page for the question ${id}`);
  return page;
};
