/** A step of the tour: what to do, and the place where it is done. */
export interface TourStep {
  readonly name: string;
  readonly says: string;
  readonly path: string;
  readonly anchor?: string;
}

export const tourSteps: readonly TourStep[] = [
  {
    name: 'Open records',
    says: 'Hubcause finds out why wheel ends fail early, from the records a fleet already keeps. They never leave this browser.',
    path: '/',
  },
  {
    name: 'Read the answer',
    says: 'Every question is answered in a sentence: the number, its limits in brackets, how many failures it stands on, and a word for how firm it is.',
    path: '/seal-life/',
  },
  {
    name: 'Look at the doubts',
    says: 'Beside the figure stands what could make the answer wrong, checked on these records. † stands against it, ? cannot be told. Each name leads to what it means.',
    path: '/seal-life/',
    anchor: 'doubts',
  },
  {
    name: 'Open what a number stands on',
    says: 'Press a number of the table: its method, its limits and the lives behind it open beneath. Counts lead to the lives themselves.',
    path: '/seal-life/',
    anchor: 'numbers',
  },
  {
    name: 'Put it in the brief',
    says: 'The button under the table puts the finding in the brief, where the case for a change is written and taken away as one file.',
    path: '/seal-life/',
    anchor: 'put-in-brief',
  },
];
