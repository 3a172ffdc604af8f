import type { Component, FailureMode } from '../../../shared/vocabulary.ts';

export interface ComponentWords {
  readonly one: string;
  readonly many: string;
  /** `has leaked`, `has failed`. */
  readonly failed: string;
  /** The failure as a thing: `leak`, `failure`. */
  readonly failure: string;
}

export const componentWords: Readonly<Record<Component, ComponentWords>> = {
  seal: { one: 'seal', many: 'seals', failed: 'leaked', failure: 'leak' },
  gasket: { one: 'gasket', many: 'gaskets', failed: 'leaked', failure: 'leak' },
  bearing: { one: 'bearing set', many: 'bearing sets', failed: 'failed', failure: 'failure' },
};

/** What a mode is, after "counting only". */
export const modeWords: Readonly<Record<FailureMode, string>> = {
  'seal-inner': 'leaks at the spindle side',
  'seal-outer': 'leaks at the hub bore',
  'seal-unknown': 'seal leaks of no stated side',
  'gasket-hubcap': 'leaks at the hubcap gasket',
  'gasket-flange': 'leaks at the flange gasket',
  vent: 'leaks at the vent',
  'lubricant-water': 'water in the lubricant',
  'lubricant-metal': 'metal in the lubricant',
  'lubricant-low': 'low lubricant',
  bearing: 'bearing failures',
  'end-play': 'loose end play',
  'hot-hub': 'hot hubs',
  'wheel-lost': 'lost wheels',
  'tone-ring': 'tone-ring faults',
  other: 'other failures',
};
