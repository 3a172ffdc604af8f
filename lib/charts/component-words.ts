import type { Component } from '../../shared/vocabulary.ts';

/** What the part is called, and what a curve of its lives shows. */
export const componentWords: Readonly<Record<Component, { many: string; curve: string; failed: string }>> = {
  seal: { many: 'seals', curve: 'seals still dry', failed: 'leaked' },
  gasket: { many: 'gaskets', curve: 'gaskets still tight', failed: 'leaked' },
  bearing: { many: 'bearing sets', curve: 'bearing sets still running', failed: 'failed' },
};
