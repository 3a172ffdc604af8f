/** The closed vocabularies of the record contract. Stored values are exactly these words. */
export const sides = ['left', 'right'] as const;
export const roles = ['steer', 'drive', 'tag', 'pusher', 'lift', 'trailer'] as const;
export const unitKinds = ['tractor', 'straight', 'trailer', 'dolly', 'bus', 'other'] as const;
export const sites = ['shop', 'vendor', 'roadside'] as const;
export const lubricants = ['oil', 'semi-fluid', 'packed'] as const;
export const hubBuilds = ['adjusted', 'spacer', 'unitized'] as const;
export const nutSystems = ['double', 'single'] as const;
export const hubMaterials = ['iron', 'aluminium'] as const;
export const fillLevels = ['ok', 'low', 'over'] as const;
export const serviceReasons = ['failure', 'planned', 'brake-work', 'inspection-finding', 'comeback', 'other'] as const;
export const partClasses = [
  'seal',
  'bearings',
  'gasket',
  'spacer',
  'lock',
  'hub',
  'hubcap',
  'lubricant',
  'lining',
  'sleeve',
] as const;

export const failureModes = [
  'seal-inner',
  'seal-outer',
  'seal-unknown',
  'gasket-hubcap',
  'gasket-flange',
  'vent',
  'lubricant-water',
  'lubricant-metal',
  'lubricant-low',
  'bearing',
  'end-play',
  'hot-hub',
  'wheel-lost',
  'tone-ring',
  'other',
] as const;
export type FailureMode = (typeof failureModes)[number];

/** Components whose lives can be rebuilt, with the part class that starts one and the modes that fail it. */
export const components = {
  seal: { part: 'seal', modes: ['seal-inner', 'seal-outer', 'seal-unknown'] },
  gasket: { part: 'gasket', modes: ['gasket-hubcap', 'gasket-flange'] },
  bearing: { part: 'bearings', modes: ['bearing', 'end-play', 'hot-hub', 'lubricant-metal'] },
} as const satisfies Record<string, { part: (typeof partClasses)[number]; modes: readonly FailureMode[] }>;
export type Component = keyof typeof components;

export const lifeStates = ['failed', 'planned', 'other-failure', 'removed-unknown', 'unit-left', 'running'] as const;
export type LifeState = (typeof lifeStates)[number];

export const steps = [
  'step_cavity_cleaned',
  'step_seal_tool_used',
  'step_seal_seated',
  'step_spacer_fitted',
  'step_spacer_oriented',
  'step_hub_supported',
  'step_lock_engaged',
  'step_outer_nut_torqued',
  'step_gasket_new',
  'step_lubricant_matched',
  'step_fill_checked',
  'step_spindle_dressed',
  'step_vent_checked',
  'step_mark_fitted',
] as const;
export type Step = (typeof steps)[number];
