import type { Choices } from '../../shared/choices.ts';
import type { Component } from '../../shared/vocabulary.ts';
import type { FindingData } from '../../shared/finding.ts';
import type { Engine } from '../engine/engine.ts';

/** What every finding says of the data it stands on, before a question adds its own counts. */
export type DataAccount = Omit<FindingData, 'lives' | 'failures' | 'miles'>;

/**
 * Lives ready to be asked, whether rebuilt from records or opened from a lives table.
 *
 * `lives_<component>`: the columns of `lifeColumns` (numbers DOUBLE, dates DATE, text VARCHAR; not
 * known = NULL) and then `inferred` (no, start, end, both), `lining_contaminated` (yes, no,
 * unknown for a failed life, else NULL), `install_known` (BOOLEAN), `position` (`2 left`),
 * `install_year` (INTEGER).
 *
 * `episodes`: one row per failure episode of any wheel-end mode, fastener losses left out:
 * `episode_id, unit_id, axle, side, component, mode, date, miles, life_id, lining_contaminated,
 * wheel_lost, inferred`; `life_id` is the life of `lives_seal` in whose exposure it was found,
 * NULL where no exposure stands behind it. `component` is seal, gasket, bearing or other.
 */
export interface LivesSource {
  readonly engine: Engine;
  readonly account: DataAccount;
  /** What could not be decided about the records, in sentences. */
  readonly messages: readonly string[];
  /** Whether lives whose miles are estimated (`mileage_quality` extrapolated) take part in answers. */
  readonly estimatedLives: Choices['estimatedLives'];
  /** Changes written down, to be judged later. */
  readonly changes: Choices['changes'];
  /** False where a lives table was opened without what stands behind it: episodes then are the failed and other-failure lives only. */
  readonly fromRecords: boolean;
  /** Makes `lives_<component>` (and always `lives_seal` and `episodes`) exist; cheap when they do. */
  ensure(component: Component, signal?: AbortSignal): Promise<void>;
}

export const livesTable = (component: Component): string => `lives_${component}`;
