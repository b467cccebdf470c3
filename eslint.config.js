import tseslint from 'typescript-eslint';
import lit from 'eslint-plugin-lit';

export default tseslint.config(
  { ignores: ['dist/', 'dist-cli/', 'node_modules/', '.pictures/'] },
  ...tseslint.configs.strict,
  ...tseslint.configs.stylistic,
  {
    files: ['src/components/**/*.ts'],
    ...lit.configs['flat/recommended'],
  },
  {
    rules: {
      // A number in a template literal is what words and pages are made of.
      '@typescript-eslint/restrict-template-expressions': 'off',
      // Data tables read better as types than as interfaces in places; both are allowed.
      '@typescript-eslint/consistent-type-definitions': 'off',
      eqeqeq: 'error',
      'no-console': 'error',
    },
  },
  {
    // A report is the same byte for byte in every engine: src/exact.ts has what engines compute differently.
    files: [
      'src/{exercises,alignment,grading,midi,sessions,take,insight,model,state}/**/*.ts',
      'src/units.ts',
    ],
    rules: {
      'no-restricted-properties': [
        'error',
        ...[
          'log',
          'log10',
          'log2',
          'log1p',
          'exp',
          'expm1',
          'sin',
          'cos',
          'tan',
          'atan',
          'atan2',
          'pow',
          'hypot',
          'cbrt',
        ].map((property) => ({ object: 'Math', property, message: 'Use src/exact.ts.' })),
      ],
      'no-restricted-syntax': [
        'error',
        { selector: "BinaryExpression[operator='**'][left.type!='Literal']", message: 'Use src/exact.ts.' },
      ],
    },
  },
  {
    // A longer one has its reason in the line above: tests/architecture.test.ts asks for it.
    files: ['src/**/*.ts'],
    rules: { 'max-lines-per-function': ['error', { max: 80, skipBlankLines: true, skipComments: true }] },
  },
  {
    files: ['tests/**/*.ts'],
    rules: { '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    files: ['scripts/**/*.mjs', 'src/cli/**/*.ts'],
    rules: { 'no-console': 'off' },
  },
);
