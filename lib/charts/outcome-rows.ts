import type { Estimate, Finding } from '../../shared/finding.ts';

/** One estimate of every group as a row of its own. */
export interface RowKind {
  readonly estimate: string;
  readonly says: string;
}

/** Under this name every row of `outcomeRows` has the estimate it stands for. */
export const rowEstimate = 'shown';

/**
 * The finding with a row for each group and kind, so that several numbers of one group stand on one
 * axis, each with its interval. By group, or by kind where groups are to be held against each other.
 */
export function outcomeRows(finding: Finding, kinds: readonly RowKind[], first: 'group' | 'kind'): Finding {
  const row = (group: Finding['groups'][number], { estimate: name, says }: RowKind) => {
    const estimate: Estimate | undefined = group.estimates[name];
    if (estimate === undefined) return [];
    const by = first === 'group' ? { ...group.by, what: says } : { what: says, ...group.by };
    return [{ ...group, label: `${group.label} · ${says}`, by, estimates: { [rowEstimate]: estimate } }];
  };
  const groups =
    first === 'group'
      ? finding.groups.flatMap((group) => kinds.flatMap((kind) => row(group, kind)))
      : kinds.flatMap((kind) => finding.groups.flatMap((group) => row(group, kind)));
  return { ...finding, groups };
}
