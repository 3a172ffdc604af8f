import { curveFrom, type Finding, type Group, type QuestionId } from '../../shared/finding.ts';
import { jobColumns } from '../../shared/lives.ts';
import { wholePick, type Found, type LivesPick } from '../../shared/lives-pick.ts';
import { defaultView, type View } from '../../shared/view.ts';

/** Counts of a finding that lives stand behind: its own, or those of the questions by name. */
export type Counted =
  'lives' | 'failures' | 'vehicles' | 'contaminated' | 'leaksSoaked' | 'leaksClean' | 'leaksUnknown';

/** Questions that count lives read in more than one way: no one list comes to their counts. */
const unlisted: ReadonlySet<QuestionId> = new Set(['detection']);

export interface LivesBehind {
  readonly view: View;
  readonly pick: LivesPick;
}

const foundOf: Readonly<Record<Exclude<Counted, 'lives' | 'vehicles'>, Found>> = {
  failures: 'failure',
  contaminated: 'soaked',
  leaksSoaked: 'leak-soaked',
  leaksClean: 'leak-clean',
  leaksUnknown: 'leak-unknown',
};

/** Values kept of a column: those already kept that are also among these. */
const kept = (before: readonly string[] | undefined, these: readonly string[]): string[] =>
  before === undefined ? [...these] : before.filter((value) => these.includes(value));

/** The finding's view without its comparison, narrowed to what the comparison took: all of it or one group. */
function viewBehind({ settings, question }: Finding, group: Group | null): View {
  const where: Record<string, string[]> = { ...(settings.where as Record<string, string[]>) };
  for (const column of settings.by) {
    const value = group?.by[column];
    if (value !== undefined) where[column] = [value];
    else if (column.startsWith('dev_')) where[column] = kept(where[column], ['yes', 'no', 'unknown']);
  }
  if (settings.by.some((column) => jobColumns.has(column)))
    where['install_kind'] = kept(where['install_kind'], ['replacement']);
  // Rates are of seal lives, whatever component the view names.
  const component = question === 'seal-life' ? settings.component : defaultView.component;
  return { ...settings, by: [], where, component };
}

/** A curve counts lives from the age it starts at; a group without a curve counts none. */
function ofCurve(group: Group | null, counted: Counted): LivesPick | null {
  const ended: LivesPick['ended'] = counted === 'failures' ? ['failed'] : [];
  if (group === null) return { ...wholePick, ended };
  const start = curveFrom(group);
  return start === null ? null : { ...wholePick, ended, past: start };
}

/**
 * Which lives stand behind a count of a finding, as the lives page lists them; null where no list of
 * lives comes to that count. Without a group, the count is of the finding as a whole.
 */
export function livesBehind(finding: Finding, group: Group | null, counted: Counted): LivesBehind | null {
  if (unlisted.has(finding.question)) return null;
  const view = viewBehind(finding, group);
  if (finding.question === 'seal-life') {
    const pick = ofCurve(group, counted);
    return pick === null ? null : { view, pick };
  }
  if (counted === 'lives' || counted === 'vehicles') return { view, pick: wholePick };
  return { view, pick: { ...wholePick, found: foundOf[counted] } };
}

/** The lives at risk at an age behind a group's curve. */
export function livesAtRisk(finding: Finding, group: Group, at: number): LivesBehind | null {
  const behind = livesBehind(finding, group, 'lives');
  return behind === null ? null : { ...behind, pick: { ...behind.pick, at } };
}
