import path from 'node:path';
import tseslint from 'typescript-eslint';

const root = path.join(import.meta.dirname, '..');

export default tseslint.config(
  { ignores: ['dist/**', 'node_modules/**', 'tests/workbench/.hosts/**', 'tests/workbench/dist/**', 'tests/workbench/results/**'] },
  ...tseslint.configs.recommended,
  {
    files: ['**/*.ts', '**/*.mts'],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: root } },
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-non-null-assertion': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'inline-type-imports' }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      'no-restricted-syntax': ['error', { selector: 'TSEnumDeclaration', message: 'A union of words does it.' }],
      eqeqeq: ['error', 'always'],
      'max-lines': ['error', { max: 500, skipBlankLines: true, skipComments: true }],
    },
  },
  {
    // The core answers the same for the same question, wherever and whenever it is asked.
    files: ['grammar/**/*.ts', 'server/core/**/*.ts', 'server/output/**/*.ts', 'server/features/**/*.ts'],
    rules: {
      'no-restricted-globals': ['error', 'process', 'Buffer', 'window', 'document', 'fetch', 'setTimeout', 'setInterval'],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'The time comes in as an argument.' },
        { object: 'Math', property: 'random', message: 'Nothing here is random.' },
        { object: 'console', property: 'log', message: 'Faults go to the caller.' },
      ],
      'no-restricted-syntax': [
        'error',
        { selector: 'TSEnumDeclaration', message: 'A union of words does it.' },
        { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: 'The time comes in as an argument.' },
        { selector: 'CallExpression[callee.property.name=/^toLocale/]', message: 'The locale comes in as an argument.' },
      ],
    },
  },
  {
    files: ['tests/**/*.ts'],
    rules: { '@typescript-eslint/no-non-null-assertion': 'off', '@typescript-eslint/no-unused-expressions': 'off' },
  },
  {
    files: ['**/*.mjs', '**/*.cjs', '**/*.js'],
    extends: [tseslint.configs.disableTypeChecked],
    rules: { '@typescript-eslint/no-require-imports': 'off' },
  },
);
