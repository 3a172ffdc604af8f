'use client';

import { columnSays, valueSays } from '../../../lib/charts/index.ts';
import { deviations } from '../../../shared/deviations.ts';
import { useView } from '../../_state/use-view.ts';
import { AccountChooser, PartChooser } from '../asked/asked-choosers.tsx';
import { FindingPage } from '../finding/finding-page.tsx';
import { Aspect } from '../finding/further-figure.tsx';
import { Chooser } from '../scope/chooser.tsx';

const share = 'the share failed by the horizon';

/** What stands under every rule, as the address has it: a cut before a deviation, else the share. */
function headlineSays(by: readonly string[], deviation: string | null): string {
  if (by.length > 0) return `the ratio by ${by.map(columnSays).join(' and ')}, as told apart above`;
  return deviation === null ? share : `the ratio with and without: ${valueSays('deviation', deviation)}`;
}

function RulesChoices() {
  const { view, change } = useView();
  const radio = (says: string, checked: boolean, deviation: string | null) => (
    <label key={says}>
      <input type="radio" name="headline" checked={checked} onChange={() => change({ by: [], deviation })} /> {says}
    </label>
  );
  const free = view.by.length === 0;
  return (
    <div className="asked">
      Counted are <PartChooser view={view} onChoose={change} />; under every rule stands{' '}
      <Chooser label="Under every rule" word={headlineSays(view.by, view.deviation)}>
        <fieldset className="choices">
          <legend>Under every rule</legend>
          {radio(share, free && view.deviation === null, null)}
          <p className="quiet">or the ratio with and without</p>
          {deviations.map(({ code, says }) => radio(says, free && view.deviation === code, code))}
        </fieldset>
      </Chooser>
      {(!free || view.deviation !== null) && (
        <>
          , <AccountChooser view={view} onChoose={change} />
        </>
      )}
      .
    </div>
  );
}

/** Does the answer depend on a choice? The headline under every defensible rule, a rule a line. */
export const RulesPage = () => (
  <FindingPage
    question="rules"
    choices={<RulesChoices />}
    beneath={() => (
      <Aspect id="claims" title="What this page says, and what it does not">
        <p>
          It says how far the answer moves when the same records are read by another rule that could be defended: what
          counts as a failure, how a removal without a reason ends a life, which miles are believed, when a leak began.
          Where all lines lie together, no such choice made the answer. It does not say which rule is right, and it
          cannot show what the records leave out.
        </p>
      </Aspect>
    )}
  />
);
