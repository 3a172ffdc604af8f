import type { Step } from './vocabulary.ts';

/** Where a deviation can exist at all; a life elsewhere carries `not-applicable`. Absent = everywhere. */
export interface DeviationScope {
  readonly hubBuilds?: readonly string[];
  readonly nutSystem?: 'double';
  readonly lubricant?: 'oil';
}

/**
 * How a life comes to carry a deviation, in the order of evidence
 * measured > recorded > step > complete checklist > parts.
 */
export interface DeviationEvidence {
  /** A measured column against the procedure's limits, and the side of the window that deviates. */
  readonly measured?: {
    readonly column: string;
    readonly limit: 'innerTorqueFtLb' | 'outerTorqueFtLb' | 'endPlayIn';
    readonly outside: 'either' | 'above' | 'below';
  };
  /** A column whose stated word means yes; any other filled word means no. */
  readonly stated?: { readonly column: string; readonly yes: string };
  readonly step?: Step;
  /** A part class that must be among the replaced; its absence deviates. */
  readonly part?: string;
}

export interface Deviation {
  readonly code: string;
  readonly says: string;
  readonly scope: DeviationScope;
  readonly evidence: DeviationEvidence;
  /** Changed on mechanism, not on statistics: every case is listed however few. */
  readonly safetyCritical: boolean;
}

const setByHand = ['adjusted'];
const drivenSeal = ['adjusted', 'spacer'];

type Extra = DeviationEvidence & { readonly safetyCritical?: true };
function deviation(code: string, says: string, scope: DeviationScope, extra: Extra = {}): Deviation {
  const { safetyCritical = false, ...evidence } = extra;
  return { code, says, scope, evidence, safetyCritical };
}

/** Installation deviations of the record contract (its section 4). A code in `deviations` is always evidence of yes. */
export const deviations: readonly Deviation[] = [
  deviation(
    'nut-backed-off',
    'nut backed off',
    { hubBuilds: ['spacer', 'unitized'] },
    { stated: { column: 'nut_backed_off', yes: 'yes' }, safetyCritical: true },
  ),
  deviation(
    'back-off-omitted',
    'back-off left out',
    { hubBuilds: setByHand },
    { stated: { column: 'nut_backed_off', yes: 'no' } },
  ),
  deviation(
    'inner-torque-out',
    'inner nut torque out of limits',
    {},
    { measured: { column: 'inner_torque_ftlb', limit: 'innerTorqueFtLb', outside: 'either' }, safetyCritical: true },
  ),
  deviation(
    'outer-torque-out',
    'outer nut torque out of limits',
    { nutSystem: 'double' },
    { measured: { column: 'outer_torque_ftlb', limit: 'outerTorqueFtLb', outside: 'either' }, safetyCritical: true },
  ),
  deviation(
    'outer-nut-skipped',
    'outer nut not torqued',
    { nutSystem: 'double' },
    { step: 'step_outer_nut_torqued', safetyCritical: true },
  ),
  deviation('lock-not-engaged', 'lock not engaged', {}, { step: 'step_lock_engaged', safetyCritical: true }),
  deviation(
    'spacer-missing',
    'spacer left out',
    { hubBuilds: ['spacer'] },
    { step: 'step_spacer_fitted', safetyCritical: true },
  ),
  deviation(
    'spacer-reversed',
    'spacer reversed',
    { hubBuilds: ['spacer'] },
    { step: 'step_spacer_oriented', safetyCritical: true },
  ),
  deviation('mixed-components', 'parts of another build fitted', {}, { safetyCritical: true }),
  deviation(
    'lubricant-mismatch',
    'lubricant mismatched',
    { hubBuilds: drivenSeal },
    { step: 'step_lubricant_matched' },
  ),
  deviation('packed-in-oil-bath', 'bearings packed with grease in an oil bath', {
    hubBuilds: drivenSeal,
    lubricant: 'oil',
  }),
  deviation(
    'seal-tool-missing',
    'seal driven without its tool',
    { hubBuilds: drivenSeal },
    { step: 'step_seal_tool_used' },
  ),
  deviation('seal-cocked', 'seal cocked or not seated', { hubBuilds: drivenSeal }, { step: 'step_seal_seated' }),
  deviation('sealant-on-seal', 'sealant on the seal', { hubBuilds: drivenSeal }),
  deviation('hub-hung-on-seal', 'hub hung on the seal', { hubBuilds: drivenSeal }, { step: 'step_hub_supported' }),
  deviation(
    'gasket-reused',
    'gasket used again',
    { hubBuilds: drivenSeal },
    { step: 'step_gasket_new', part: 'gasket' },
  ),
  deviation(
    'underfilled',
    'filled too low',
    { hubBuilds: drivenSeal },
    { stated: { column: 'fill_level', yes: 'low' } },
  ),
  deviation(
    'overfilled',
    'filled too high',
    { hubBuilds: drivenSeal },
    { stated: { column: 'fill_level', yes: 'over' } },
  ),
  deviation('dirty-cavity', 'cavity not cleaned', { hubBuilds: drivenSeal }, { step: 'step_cavity_cleaned' }),
  deviation(
    'end-play-high',
    'end play above the limit',
    { hubBuilds: setByHand },
    { measured: { column: 'end_play_in', limit: 'endPlayIn', outside: 'above' } },
  ),
  deviation(
    'end-play-low',
    'end play below the limit',
    { hubBuilds: setByHand },
    { measured: { column: 'end_play_in', limit: 'endPlayIn', outside: 'below' } },
  ),
  deviation(
    'end-play-unmeasured',
    'end play not measured',
    { hubBuilds: setByHand },
    { stated: { column: 'end_play_measured', yes: 'no' } },
  ),
  deviation('spindle-not-dressed', 'spindle not dressed', {}, { step: 'step_spindle_dressed' }),
  deviation('mark-missing', 'identification mark missing', { hubBuilds: ['spacer'] }, { step: 'step_mark_fitted' }),
];

export const deviationCodes: readonly string[] = deviations.map(({ code }) => code);

/** The lives column that carries a code. */
export const deviationColumn = (code: string): string => `dev_${code.replaceAll('-', '_')}`;
