import js from '@eslint/js'
import tseslint from 'typescript-eslint'
import reactHooks from 'eslint-plugin-react-hooks'

const TEXTS_ELSEWHERE =
  'Every text a person sees stands in src/data/en (screens.json), read through useTexts().'
/** Where words for a person hide in the screens: between tags, in attributes that are read out, and as sentences. */
const SAID_IN_CODE = [
  'JSXText[value=/\\p{L}/u]',
  'JSXAttribute[name.name=/^(aria-label|title|placeholder|alt|label|hint|about|submit)$/] Literal[value=/\\p{L}{2}/u]',
  'JSXAttribute[name.name=/^(aria-label|title|placeholder|alt|label|hint|about|submit)$/] TemplateElement[value.raw=/\\p{L}{2}/u]',
  ':matches(JSXElement, JSXFragment) > JSXExpressionContainer > :matches(Literal, ConditionalExpression > Literal, LogicalExpression > Literal)[value=/\\p{L}{2}/u]',
  ':matches(JSXElement, JSXFragment) > JSXExpressionContainer TemplateElement[value.raw=/\\p{L}{2,} /u]:not(JSXAttribute *)',
  'Literal[value=/^\\p{Lu}.* \\p{Ll}/u]:not(ThrowStatement Literal)',
]

export default tseslint.config(
  {
    ignores: [
      'dist',
      'public',
      'models',
      'coverage',
      'node_modules',
      '.dependency-cruiser.cjs',
      'eslint.config.js',
    ],
  },
  js.configs.recommended,
  ...tseslint.configs.recommendedTypeChecked,
  {
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    rules: {
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-non-null-assertion': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_' },
      ],
      'max-lines': ['warn', { max: 300, skipBlankLines: true, skipComments: true }],
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' },
      ],
    },
  },
  {
    files: ['src/core/**'],
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      'no-restricted-properties': [
        'error',
        {
          object: 'Date',
          property: 'now',
          message: 'Core has no clock: take the time as an argument.',
        },
        {
          object: 'Math',
          property: 'random',
          message: 'Core has no randomness: take it as an argument.',
        },
      ],
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' },
        {
          selector: "NewExpression[callee.name='Date'][arguments.length=0]",
          message: 'Core has no clock.',
        },
      ],
    },
  },
  {
    files: ['src/ui/**', 'src/main.tsx'],
    plugins: { 'react-hooks': reactHooks },
    rules: reactHooks.configs.recommended.rules,
  },
  {
    files: ['src/ui/**'],
    rules: {
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' },
        ...SAID_IN_CODE.map((selector) => ({ selector, message: TEXTS_ELSEWHERE })),
      ],
    },
  },
  {
    files: ['tests/**', 'scripts/**', '*.config.ts'],
    rules: {
      'no-restricted-syntax': 'off',
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/require-await': 'off',
    },
  },
)
