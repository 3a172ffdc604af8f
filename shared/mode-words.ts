import type { FailureMode } from './vocabulary.ts';

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
