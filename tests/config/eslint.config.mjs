import reactHooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';

const root = new URL('../..', import.meta.url).pathname;

export default tseslint.config(
  { ignores: ['**/node_modules/**', '**/.next/**', '**/out/**', '**/*.mjs', '**/*.cjs', '**/next-env.d.ts'] },
  ...tseslint.configs.strictTypeChecked,
  {
    basePath: root,
    languageOptions: { parserOptions: { project: './tsconfig.json', tsconfigRootDir: root } },
    rules: {
      // Numbers are meant to be written into sentences and SQL texts.
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true, allowBoolean: true }],
      // `array[index]!` would hide what noUncheckedIndexedAccess finds; `as number` in checked kernels says the same more loudly.
      '@typescript-eslint/no-non-null-assertion': 'error',
      // A property left out on purpose is named with an underscore or stands beside a rest.
      '@typescript-eslint/no-unused-vars': [
        'error',
        {
          argsIgnorePattern: '^_',
          varsIgnorePattern: '^_',
          destructuredArrayIgnorePattern: '^_',
          ignoreRestSiblings: true,
        },
      ],
      '@typescript-eslint/no-misused-spread': ['error', { allow: [{ from: 'lib', name: 'String' }, 'string'] }],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
    },
  },
  {
    files: ['**/*.tsx', '**/app/**/*.ts'],
    plugins: { 'react-hooks': reactHooks },
    rules: reactHooks.configs.recommended.rules,
  },
  {
    files: ['**/lib/statistics/**'],
    rules: {
      // The public front also checks arguments that untyped callers may get wrong.
      '@typescript-eslint/no-unnecessary-condition': 'off',
      'no-restricted-globals': ['error', 'process', 'window', 'document', 'fetch', 'performance', 'setTimeout'],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'statistics know no chance: pass a seeded generator' },
        { object: 'Date', property: 'now', message: 'statistics know no clock' },
      ],
    },
  },
  {
    // Unchecked kernels behind a checked front: every index is within bounds by construction.
    files: ['**/lib/engine/**', '**/lib/records/**'],
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      // Arrow's and DuckDB's types are looser than what they give; one interface is asynchronous for both engines.
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-enum-comparison': 'off',
      '@typescript-eslint/no-base-to-string': 'off',
      '@typescript-eslint/require-await': 'off',
    },
  },
  {
    files: ['**/tests/**'],
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/unbound-method': 'off',
      '@typescript-eslint/require-await': 'off',
      '@typescript-eslint/no-explicit-any': 'off',
      '@typescript-eslint/no-confusing-void-expression': 'off',
      '@typescript-eslint/no-unnecessary-condition': 'off',
      '@typescript-eslint/restrict-plus-operands': 'off',
      '@typescript-eslint/no-misused-spread': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
    },
  },
);
