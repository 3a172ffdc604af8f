/** When a deviation is expected to tell, if it does: soon after the job, or by bringing wear forward. */
export type Timing = 'early' | 'throughout' | 'later';

export interface Mechanism {
  /** What it is thought to do; engineering judgement, not a finding. */
  readonly does: string;
  readonly timing: Timing;
}

const of = (does: string, timing: Timing): Mechanism => ({ does, timing });

/** By code of the record contract; every code has its entry (tested). */
export const mechanisms: Readonly<Record<string, Mechanism>> = {
  'nut-backed-off': of('clamp is lost, cones creep on the spindle and the nut can loosen', 'early'),
  'back-off-omitted': of('preload heats the bearing and breaks the lubricant down', 'early'),
  'inner-torque-out': of('too low lets play grow, too high preloads the bearing', 'early'),
  'outer-torque-out': of('the inner nut can walk and play drifts', 'early'),
  'outer-nut-skipped': of('the inner nut can walk and play drifts', 'early'),
  'lock-not-engaged': of('the nut can unscrew under cone drag, without warning', 'throughout'),
  'spacer-missing': of('the setting is undefined: gross preload or play', 'early'),
  'spacer-reversed': of('the setting is wrong and cone faces are damaged', 'early'),
  'mixed-components': of('parts that do not belong together set the bearing wrongly', 'early'),
  'lubricant-mismatch': of(
    'the lubricant thins or starves the bearing and its level can no longer be read',
    'throughout',
  ),
  'packed-in-oil-bath': of('packed grease blocks the oil feed at start-up', 'early'),
  'seal-tool-missing': of('the seal is driven crooked or dented', 'early'),
  'seal-cocked': of('the lip is loaded unevenly and oil finds a path past the outside', 'early'),
  'sealant-on-seal': of('sealant works its way to the lip, or the seal slips in its bore', 'early'),
  'hub-hung-on-seal': of('the weight of the hub bends the lip', 'early'),
  'gasket-reused': of('the face leaks and the level drops; no path to the seal itself', 'early'),
  underfilled: of('the outer bearing starves first', 'early'),
  overfilled: of('lubricant is pushed out at the vent, which can look like a leak', 'early'),
  'dirty-cavity': of('dirt and debris wear the lip and the bearing', 'later'),
  'end-play-high': of('the shaft runs out of true under the lip and pumps oil past it', 'throughout'),
  'end-play-low': of('preload heats the bearing', 'early'),
  'end-play-unmeasured': of('it marks a hurried job more than it does anything itself', 'throughout'),
  'spindle-not-dressed': of('the new lip rides in the old groove', 'early'),
  'mark-missing': of('it does nothing by itself; the next job may set the hub by the wrong rules', 'later'),
};
