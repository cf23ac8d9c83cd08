import tseslint from 'typescript-eslint';

/** The house rules that a linter can hold: size of files, no default exports, purity of models. */
export default tseslint.config(
  { ignores: ['node_modules/**', 'build/**', 'var/**', 'data/**'] },
  ...tseslint.configs.recommended,
  {
    files: ['**/*.ts', '**/*.tsx'],
    rules: {
      'max-lines': ['error', { max: 250, skipBlankLines: false, skipComments: false }],
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' },
        { selector: 'ExportAllDeclaration', message: 'No barrels: import from the file that owns the name.' },
      ],
      eqeqeq: ['error', 'always'],
      'prefer-const': 'error',
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
    },
  },
  {
    files: ['models/**/*.ts'],
    rules: {
      'no-restricted-globals': [
        'error',
        { name: 'Date', message: 'models/ has no clock: pass asOf in; models/schema/day.ts converts dates.' },
        { name: 'process', message: 'models/ is pure.' },
        { name: 'fetch', message: 'models/ is pure.' },
        { name: 'console', message: 'models/ is pure.' },
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'Pass random in.' },
      ],
    },
  },
  {
    files: ['tests/**/*.ts', '**/vite.config.ts', '**/vitest.config.ts'],
    rules: { 'no-restricted-syntax': 'off', 'max-lines': ['error', { max: 400 }] },
  },
);
