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
    files: ['tests/**/*.ts'],
    rules: { '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    files: ['scripts/**/*.mjs', 'src/cli/**/*.ts'],
    rules: { 'no-console': 'off' },
  },
);
