/** One thing the engineer writes: what it is called, and what is asked for. */
export interface BriefField {
  readonly name: string;
  readonly label: string;
  readonly hint: string;
  /** Held in one line: a date, a shop, a count. */
  readonly short?: boolean;
}

export interface BriefSection {
  readonly number: number;
  readonly title: string;
  readonly fields: readonly BriefField[];
}

const field = (name: string, label: string, hint: string): BriefField => ({ name, label, hint });
const line = (name: string, label: string, hint: string): BriefField => ({ name, label, hint, short: true });

/** What a brief holds, in the order in which whoever has to approve a change reads it. */
export const briefSections: readonly BriefSection[] = [
  {
    ...{ number: 1, title: 'Problem' },
    fields: [field('problem', 'The problem in one sentence', 'What fails where, with its rate and the period')],
  },
  {
    ...{ number: 2, title: 'Scope' },
    fields: [
      field('scope', 'What it is about', 'Units, wheel ends, hub builds, lubricants, shops, and what is left out'),
    ],
  },
  {
    ...{ number: 3, title: 'Data' },
    fields: [field('data', 'About the records', 'What is known of how they were written that no count tells')],
  },
  {
    ...{ number: 4, title: 'Definitions' },
    fields: [field('definitions', 'Further definitions', 'Words that are used in a sense of your own')],
  },
  {
    ...{ number: 5, title: 'Containment and interim action' },
    fields: [
      field('containment', 'What is done until the change is decided', 'Inspections, holds, rechecks, from when'),
    ],
  },
  { number: 6, title: 'Findings', fields: [] },
  {
    ...{ number: 7, title: 'Hypotheses considered and rejected' },
    fields: [field('setAside', 'What else was thought of', 'Each with what speaks against it')],
  },
  {
    ...{ number: 8, title: 'Mechanism and physical evidence' },
    fields: [
      field('mechanism', 'How it would come about', 'The chain from step to failure, and when in a life it would show'),
      field('evidence', 'What was seen and measured', 'Teardowns, survivors too; measurements with their tools'),
    ],
  },
  {
    ...{ number: 9, title: 'Proposed change' },
    fields: [
      field('oldStep', 'The step as it is', 'Word for word, from the procedure in force'),
      field('newStep', 'The step as proposed', 'Word for word, as it would stand in the procedure'),
      field('tools', 'Tools and parts', 'What has to be bought, made or calibrated'),
      line('minutes', 'Minutes a wheel end', 'More or fewer than today'),
      line('who', 'Who does it', 'By the work, not by name'),
    ],
  },
  {
    ...{ number: 10, title: 'Expected effect, and what would make it wrong' },
    fields: [
      field('effect', 'What is expected', 'As a range, over which period'),
      field('wrongIf', 'What would make it wrong', 'What else could lie behind the findings'),
    ],
  },
  {
    ...{ number: 11, title: 'Risks and guard metrics' },
    fields: [
      field('risks', 'What the change could do harm to', 'Other steps, other builds, time under pressure'),
      field('guards', 'What is watched meanwhile', 'Numbers that must not grow, and how far'),
    ],
  },
  {
    ...{ number: 12, title: 'Trial and verification plan' },
    fields: [
      line('trialShops', 'Shops', 'Two or more'),
      line('trialStart', 'Start', 'A date'),
      line('trialEvents', 'Failures needed', 'How many before it can be told'),
      line('trialDecision', 'Decision on', 'A date'),
      field(
        'trialRule',
        'Success and stop rule',
        'Written down before the trial begins; how it is measured that the step is done',
      ),
    ],
  },
  {
    ...{ number: 13, title: 'Open questions and limits' },
    fields: [field('open', 'What is still open', 'And who could close it')],
  },
  {
    ...{ number: 14, title: 'Approvals and record' },
    fields: [
      line('owner', 'Owner of the change', 'A role or a name'),
      line('rollback', 'Way back', 'Who takes the change back, and on what sign'),
    ],
  },
];

export const briefFields: readonly BriefField[] = briefSections.flatMap(({ fields }) => fields);
