import type { View } from '../../../shared/view.ts';
import { Chooser } from '../scope/chooser.tsx';
import { AccountChoice } from './account-choice.tsx';
import { accountSays, outcomeSays, partSays } from './asked-words.ts';
import { OutcomeChoice } from './outcome-choice.tsx';
import { PartChoice } from './part-choice.tsx';

interface Props {
  readonly view: View;
  readonly onChoose: (part: Partial<View>) => void;
}

/** What counts as a failure, which opens the choice of it. */
export const CountedChooser = ({ view, onChoose }: Props) => (
  <Chooser label="What counts" word={outcomeSays(view)}>
    <OutcomeChoice view={view} onChoose={onChoose} />
  </Chooser>
);

/** Which part's failures count, which opens the choice of it. */
export const PartChooser = ({ view, onChoose }: Props) => (
  <Chooser label="What counts" word={partSays(view)}>
    <PartChoice view={view} onChoose={onChoose} />
  </Chooser>
);

/** `with what usually is taken into account`, which opens the choice of columns. */
export const AccountChooser = ({ view, onChoose }: Props) => (
  <>
    with{' '}
    <Chooser label="Taken into account" word={accountSays(view)}>
      <AccountChoice view={view} onChoose={onChoose} />
    </Chooser>{' '}
    taken into account
  </>
);
