import type { Group } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import type { Comebacks } from './comebacks.ts';
import type { LikeForLike } from './like-for-like.ts';
import type { ShopsEvidence } from './shops-evidence.ts';
import type { Shrunken } from './shrunken.ts';

/** One group as it stands in the comparison. */
export interface ShopGroup {
  readonly group: Group;
  /** Place among the evidence's groups. */
  readonly place: number;
  /** Whether it is compared and ordered: one group, failures enough, common ground with the others. */
  readonly compared: boolean;
  /** Larger of the exact and the vehicle-robust p-value of a ratio of 1, before and after allowing for the groups compared (Holm). */
  readonly rawPValue: number | null;
  readonly pValue: number | null;
}

export interface GroupsAbout {
  readonly view: View;
  readonly evidence: ShopsEvidence;
  readonly alike: LikeForLike | null;
  readonly shrunken: Shrunken | null;
  readonly comebacks: readonly Comebacks[];
  readonly event: string;
}
