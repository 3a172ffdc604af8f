import type { Choices } from '../../../../shared/choices.ts';

/** Whether lives whose miles are an estimate take part. */
export function EstimatedChoice({ choices, onEdit }: { choices: Choices; onEdit: (choices: Choices) => void }) {
  return (
    <div>
      <h3>Lives whose miles are estimated</h3>
      <label>
        <input
          type="checkbox"
          checked={choices.estimatedLives === 'out'}
          onChange={({ target }) => onEdit({ ...choices, estimatedLives: target.checked ? 'out' : 'in' })}
        />{' '}
        Leave them out of every answer (each answer says among its doubts what that would change)
      </label>
    </div>
  );
}
