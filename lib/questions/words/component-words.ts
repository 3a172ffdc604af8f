import type { Component } from '../../../shared/vocabulary.ts';

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
