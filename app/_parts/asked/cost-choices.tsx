'use client';

import { useView } from '../../_state/use-view.ts';
import { Chooser } from '../scope/chooser.tsx';
import { NumberChoice } from './number-choice.tsx';

type CostName = 'plannedCost' | 'failureCost' | 'downtimeCost' | 'liningCost' | 'roadCallCost';

const labels: Readonly<Record<CostName, string>> = {
  plannedCost: 'Cost of a planned renewal',
  failureCost: 'Cost of a failure’s repair',
  downtimeCost: 'Cost of the downtime a failure brings',
  liningCost: 'What a soaked lining adds',
  roadCallCost: 'What a road call adds',
};
const mostCost = 100_000_000;

/** One cost in the sentence, pressed to be entered. */
export function CostWord({ name }: { readonly name: CostName }) {
  const { view, change } = useView();
  const positive = name === 'plannedCost' || name === 'failureCost';
  return (
    <Chooser label={labels[name]} word={view[name].toLocaleString('en-US')}>
      <NumberChoice
        label={`${labels[name]}, in any one unit of money`}
        value={view[name]}
        rule={positive ? 'A cost above 0.' : 'A cost of 0 or more.'}
        isUsable={(typed) => (positive ? typed > 0 : typed >= 0) && typed <= mostCost}
        act="Take this cost"
        onValue={(value) => change({ [name]: value })}
      />
    </Chooser>
  );
}

/** What a failure costs, part by part. */
export const FailureCosts = () => (
  <>
    a failure <CostWord name="failureCost" /> to repair and <CostWord name="downtimeCost" /> in downtime, a soaked
    lining <CostWord name="liningCost" /> more, a road call <CostWord name="roadCallCost" /> more
  </>
);
