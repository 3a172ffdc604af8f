import { firmnessRule } from '../firmness-rule.ts';

export interface Term {
  readonly term: string;
  readonly says: string;
}

const { firmFailures, fairFailures, thinFailures, firmPValue, noDifference } = firmnessRule;
const [least, most] = noDifference;

/** The words of every finding, as lives are made; the brief and the methods page say them alike. */
export const definitions = (early: string): readonly Term[] => [
  {
    term: 'Life',
    says: 'A part at one wheel end from its installation to its failure, its renewal for another reason, or the end of watching.',
  },
  { term: 'Failure', says: 'A failure record of a mode of that part, placed on the life in which it was found.' },
  { term: 'Early failure', says: `A failure up to ${early} after installation.` },
  {
    term: 'Preventive removal',
    says: 'A renewal with no failure of the part recorded before it. The life is cut off there, not counted as failed.',
  },
  {
    term: 'Deviation',
    says: 'A step, part or value of the installing job that the procedure in force does not allow, told at installation and not after the failure. “No” needs evidence; what nobody wrote down is “not known”.',
  },
  { term: 'Installing shop', says: 'The shop whose service fitted the part, whoever found the failure.' },
  {
    term: 'Firmness',
    says: `Of a comparison. Firm: at least ${firmFailures} failures in each group, no doubt that stands against it, and either p below ${firmPValue}, corrected for the number compared, or the whole interval between ${least} and ${most}. Fair: at least ${fairFailures} in each group. Thin: ${thinFailures} to ${fairFailures - 1}. Too few: under ${thinFailures}, with counts and bounds only. One group alone: by its failures and the width of its interval.`,
  },
];
