import { causeMethods } from './cause-methods.ts';
import { lifeMethods } from './life-methods.ts';
import type { Method } from './method.ts';
import { nextMethods } from './next-methods.ts';
import { rateMethods } from './rate-methods.ts';

export const methodParts: readonly { readonly name: string; readonly methods: readonly Method[] }[] = [
  { name: 'How parts last', methods: lifeMethods },
  { name: 'How often, and what share', methods: rateMethods },
  { name: 'Why they fail', methods: causeMethods },
  { name: 'What next', methods: nextMethods },
];

export const methods: readonly Method[] = methodParts.flatMap((part) => part.methods);

/** The entries that explain what a finding calls a method, in the order of the page. */
export const methodsNamed = (told: string): readonly Method[] =>
  methods.filter(({ of }) => of.some((pattern) => pattern.test(told)));

/** The sources of the methods named, each once. */
export const sourcesOf = (told: readonly string[]): string[] => [
  ...new Set(
    methods
      .filter(({ of }) => of.some((pattern) => told.some((one) => pattern.test(one))))
      .flatMap(({ sources }) => sources),
  ),
];
