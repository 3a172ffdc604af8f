import { expect, test } from 'vitest';
import { hasScope } from '../../app/_parts/contents.ts';

test.each(['/', '/lives/', '/seal-life/', '/after-change', '/ahead/'])('%s has a scope', (path) =>
  expect(hasScope(path)).toBe(true),
);

test.each(['/records/', '/records/columns/', '/procedure/', '/brief/', '/methods/', '/nowhere/', '/_not-found'])(
  '%s has none',
  (path) => expect(hasScope(path)).toBe(false),
);
