import type { WrittenStep } from './rows.ts';

/** Deviation codes of the record contract, with the planted frequency and effect of each. All invented. */
export type HubBuild = 'adjusted' | 'spacer' | 'unitized';
export type Lubricant = 'oil' | 'semi-fluid' | 'packed';

/** A second, latent way to fail soon: taken by `share` of the lives that carry the deviation. */
export interface EarlyBranch {
  readonly share: number;
  readonly shape: number;
  readonly scaleMiles: number;
}

export interface PlantedDeviation {
  readonly code: string;
  readonly builds: readonly HubBuild[];
  readonly only?: 'double-nut' | 'oil';
  /** True share of installations by shop (story.ts order; the sixth is outside work). */
  readonly prevalence: readonly [number, number, number, number, number, number];
  /** Multiplies the wear hazard of the seal; for end play see `endPlayHazard`. */
  readonly sealHazard: number;
  readonly sealEarly?: EarlyBranch;
  readonly bearingHazard: number;
  readonly bearingEarly?: EarlyBranch;
  readonly step?: WrittenStep;
}

type Prevalence = PlantedDeviation['prevalence'];
const ALL: readonly HubBuild[] = ['adjusted', 'spacer', 'unitized'];
const OPEN: readonly HubBuild[] = ['adjusted', 'spacer'];
const ADJUSTED: readonly HubBuild[] = ['adjusted'];
const SPACER: readonly HubBuild[] = ['spacer'];

export function early(share: number, shape: number, scaleMiles: number): EarlyBranch {
  return { share, shape, scaleMiles };
}

function deviation(
  code: string,
  builds: readonly HubBuild[],
  prevalence: Prevalence,
  effect: Partial<PlantedDeviation> = {},
): PlantedDeviation {
  return { code, builds, prevalence, sealHazard: 1, bearingHazard: 1, ...effect };
}

export const DEVIATIONS: readonly PlantedDeviation[] = [
  deviation('nut-backed-off', ['spacer', 'unitized'], [0.05, 0.06, 0.06, 0.05, 0.11, 0.067], {
    sealHazard: 1.6,
    sealEarly: early(0.5, 0.9, 20_000),
    bearingHazard: 1.5,
    bearingEarly: early(0.12, 1.2, 40_000),
  }),
  deviation('back-off-omitted', ADJUSTED, [0.03, 0.04, 0.04, 0.03, 0.065, 0.05], {
    sealHazard: 1.3,
    bearingEarly: early(0.2, 1, 30_000),
  }),
  deviation('inner-torque-out', SPACER, [0.06, 0.08, 0.06, 0.06, 0.11, 0.079], {
    sealHazard: 1.5,
    bearingHazard: 1.6,
  }),
  deviation('outer-torque-out', OPEN, [0.05, 0.06, 0.05, 0.05, 0.082, 0.064], { only: 'double-nut', sealHazard: 1.15 }),
  deviation('outer-nut-skipped', OPEN, [0.01, 0.035, 0.015, 0.02, 0.041, 0.024], {
    only: 'double-nut',
    sealHazard: 1.5,
    sealEarly: early(0.35, 0.9, 30_000),
    bearingHazard: 1.4,
    step: 'step_outer_nut_torqued',
  }),
  deviation('lock-not-engaged', ALL, [0.002, 0.003, 0.003, 0.002, 0.0051, 0.003], {
    bearingEarly: early(0.6, 1.3, 20_000),
    step: 'step_lock_engaged',
  }),
  deviation('spacer-missing', SPACER, [0.006, 0.008, 0.01, 0.008, 0.02, 0.01], {
    sealHazard: 1.5,
    sealEarly: early(0.7, 1.2, 8_000),
    bearingEarly: early(0.4, 1.2, 9_000),
    step: 'step_spacer_fitted',
  }),
  deviation('spacer-reversed', SPACER, [0.01, 0.012, 0.014, 0.012, 0.025, 0.014], {
    sealEarly: early(0.6, 1.1, 15_000),
    bearingHazard: 1.5,
    step: 'step_spacer_oriented',
  }),
  deviation('mixed-components', ALL, [0.006, 0.008, 0.008, 0.006, 0.012, 0.008], {
    sealHazard: 1.8,
    bearingHazard: 1.8,
  }),
  deviation('lubricant-mismatch', OPEN, [0.01, 0.015, 0.02, 0.015, 0.025, 0.018], {
    sealHazard: 1.4,
    bearingHazard: 1.8,
    step: 'step_lubricant_matched',
  }),
  deviation('packed-in-oil-bath', OPEN, [0.05, 0.05, 0.06, 0.05, 0.1, 0.064], {
    only: 'oil',
    sealHazard: 1.5,
    sealEarly: early(0.45, 1, 14_000),
    bearingEarly: early(0.08, 1.2, 15_000),
  }),
  deviation('seal-tool-missing', OPEN, [0.06, 0.14, 0.07, 0.06, 0.11, 0.1], { step: 'step_seal_tool_used' }),
  deviation('seal-cocked', OPEN, [0.03, 0.08, 0.035, 0.03, 0.082, 0.053], {
    sealEarly: early(0.8, 0.9, 12_000),
    step: 'step_seal_seated',
  }),
  deviation('sealant-on-seal', OPEN, [0.05, 0.05, 0.06, 0.05, 0.073, 0.064]),
  deviation('hub-hung-on-seal', OPEN, [0.03, 0.07, 0.04, 0.03, 0.073, 0.051], {
    sealHazard: 1.1,
    sealEarly: early(0.4, 0.9, 18_000),
    step: 'step_hub_supported',
  }),
  deviation('gasket-reused', OPEN, [0.08, 0.12, 0.1, 0.1, 0.18, 0.12], { step: 'step_gasket_new' }),
  deviation('underfilled', OPEN, [0.03, 0.05, 0.04, 0.05, 0.073, 0.051], { sealHazard: 1.1, bearingHazard: 3 }),
  deviation('overfilled', OPEN, [0.04, 0.04, 0.04, 0.05, 0.058, 0.051]),
  deviation('dirty-cavity', OPEN, [0.05, 0.09, 0.06, 0.06, 0.12, 0.079], {
    sealHazard: 1.7,
    step: 'step_cavity_cleaned',
  }),
  deviation('end-play-high', ADJUSTED, [0.09, 0.17, 0.1, 0.09, 0.2, 0.14], { bearingHazard: 1.4 }),
  deviation('end-play-low', ADJUSTED, [0.03, 0.03, 0.03, 0.03, 0.049, 0.037], { sealHazard: 1.4, bearingHazard: 2.5 }),
  deviation('end-play-unmeasured', ADJUSTED, [0.22, 0.5, 0.32, 0.32, 0.46, 0.41]),
  deviation('spindle-not-dressed', ALL, [0.2, 0.28, 0.24, 0.24, 0.39, 0.36], {
    sealHazard: 1.5,
    sealEarly: early(0.3, 1, 40_000),
    step: 'step_spindle_dressed',
  }),
  deviation('mark-missing', SPACER, [0.14, 0.16, 0.16, 0.14, 0.2, 0.18], { step: 'step_mark_fitted' }),
];

const bits = new Map(DEVIATIONS.map(({ code }, index) => [code, 1 << index]));

export function bitOf(code: string): number {
  const bit = bits.get(code);
  if (bit === undefined) throw new RangeError(`not a deviation of the contract: ${code}`);
  return bit;
}

export function codesOf(bits: number): string[] {
  const codes: string[] = [];
  if (bits !== 0)
    for (let index = 0; index < DEVIATIONS.length; index++)
      if (bits & (1 << index)) codes.push((DEVIATIONS[index] as PlantedDeviation).code);
  return codes;
}
