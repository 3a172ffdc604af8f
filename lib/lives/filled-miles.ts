import type { Choices } from '../../shared/choices.ts';
import type { Statement } from '../engine/statement.ts';

/** Whether the miles of a day (`work_day_miles d`) may stand in for a row that has none of its own, by the rules that are on. */
export function mayBeFilled({ mileage }: Choices): Statement {
  const on = Object.entries(mileage).flatMap(([rule, is]) => (is ? [`'${rule}'`] : []));
  return { text: on.length > 0 ? `d.rule in (${on.join(', ')})` : 'false', values: [] };
}
