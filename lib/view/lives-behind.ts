import { curveFrom, type Finding, type Group, type QuestionId } from '../../shared/finding.ts';
import { deviationColumn } from '../../shared/deviations.ts';
import { jobColumns } from '../../shared/lives.ts';
import { wholePick, type Found, type LivesPick } from '../../shared/lives-pick.ts';
import { defaultView, type View } from '../../shared/view.ts';
import { components } from '../../shared/vocabulary.ts';

/** Counts of a finding that lives stand behind: its own, or those of the questions by name. */
export type Counted =
  | 'lives'
  | 'failures'
  | 'livesWithout'
  | 'failuresWithout'
  | 'livesUnknown'
  | 'vehicles'
  | 'contaminated'
  | 'leaksSoaked'
  | 'leaksClean'
  | 'leaksUnknown';

/** Questions that count lives read in more than one way: no one list comes to their counts. */
const unlisted: ReadonlySet<QuestionId> = new Set([
  'detection',
  'rules',
  'dose',
  'repeats',
  'after-change',
  'savings',
  'ahead',
]);

export interface LivesBehind {
  readonly view: View;
  readonly pick: LivesPick;
}

/** What lives say of a deviation, by which of its counts they stand behind. */
const wordOf = { livesWithout: 'no', failuresWithout: 'no', livesUnknown: 'unknown' } as const;

const foundOf: Readonly<Record<Exclude<Counted, 'lives' | 'vehicles' | keyof typeof wordOf>, Found>> = {
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
  const component = question === 'seal-life' || question === 'renewal' ? settings.component : defaultView.component;
  return { ...settings, by: [], where, component };
}

/** Compared are replacements of known start that were watched for some of it: with, without or not known. */
function ofComparison({ settings }: Finding, group: Group | null, counted: Counted): LivesBehind | null {
  const where: Record<string, string[]> = { ...(settings.where as Record<string, string[]>) };
  const word = counted in wordOf ? wordOf[counted as keyof typeof wordOf] : null;
  for (const [cut, value] of Object.entries(group?.by ?? {})) {
    const column = cut === 'deviation' ? deviationColumn(value) : cut;
    if (word !== null && cut !== 'deviation') return null;
    where[column] = kept(where[column], [cut === 'deviation' ? (word ?? 'yes') : value]);
    if (where[column].length === 0) return null;
  }
  where['install_kind'] = kept(where['install_kind'], ['replacement']);
  const failed = counted === 'failures' || counted === 'failuresWithout';
  // Found at the wheel end in the life of the seal there: the list knows no such end.
  const modes: readonly string[] = components[settings.component].modes;
  const foreign = settings.mode !== null && !modes.includes(settings.mode);
  if (failed && (settings.outcome !== 'component' || foreign)) return null;
  const component = settings.outcome === 'component' ? settings.component : defaultView.component;
  return {
    view: { ...settings, by: [], where, component },
    pick: { ...wholePick, past: 0, ended: failed ? ['failed'] : [] },
  };
}

/** A group that holds several values of its column, or stands by who found the failure, is no list of lives. */
const isListed = ({ settings, question }: Finding, group: Group | null): boolean =>
  question !== 'shops' || (group?.label !== 'smallest together' && settings.attribution === 'installing');

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
  if (finding.question === 'causes' || finding.question === 'shops')
    return isListed(finding, group) ? ofComparison(finding, group, counted) : null;
  if (unlisted.has(finding.question)) return null;
  const view = viewBehind(finding, group);
  if (finding.question === 'seal-life') {
    const pick = ofCurve(group, counted);
    return pick === null ? null : { view, pick };
  }
  if (finding.question === 'renewal') return ofRenewal(view, counted);
  if (counted === 'lives' || counted === 'vehicles') return { view, pick: wholePick };
  return counted in wordOf ? null : { view, pick: { ...wholePick, found: foundOf[counted as keyof typeof foundOf] } };
}

/** Renewal is planned on replacements of known start that were watched. */
function ofRenewal(view: View, counted: Counted): LivesBehind | null {
  if (counted !== 'lives' && counted !== 'failures' && counted !== 'vehicles') return null;
  const where = { ...(view.where as Record<string, string[]>) };
  where['install_kind'] = kept(where['install_kind'], ['replacement']);
  return {
    view: { ...view, where },
    pick: { ...wholePick, past: 0, ended: counted === 'failures' ? ['failed'] : [] },
  };
}

/** The lives at risk at an age behind a group's curve. */
export function livesAtRisk(finding: Finding, group: Group, at: number): LivesBehind | null {
  const behind = livesBehind(finding, group, 'lives');
  return behind === null ? null : { ...behind, pick: { ...behind.pick, at } };
}
