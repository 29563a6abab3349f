import js from '@eslint/js'
import tseslint from 'typescript-eslint'
import reactHooks from 'eslint-plugin-react-hooks'

const NAMED_ONLY = { selector: 'ExportDefaultDeclaration', message: 'Named exports only.' }
const NO_CLOCK = 'Take the time as an argument: only src/adapters/time and main.tsx read a clock.'

const TEXTS_ELSEWHERE =
  'Every text a person sees stands in src/data/en (screens.json), read through useTexts().'
const READ_OUT = /^(aria-label|title|placeholder|alt|label|hint|about|submit)$/
const WITHIN = ':matches(JSXElement, JSXFragment) > JSXExpressionContainer'
/** Where words for a person hide in the screens: between tags, in attributes that are read out, and as sentences. */
const SAID_IN_CODE = [
  'JSXText[value=/\\p{L}/u]',
  `JSXAttribute[name.name=${READ_OUT}] Literal[value=/\\p{L}{2}/u]`,
  `JSXAttribute[name.name=${READ_OUT}] TemplateElement[value.raw=/\\p{L}{2}/u]`,
  `${WITHIN} > Literal[value=/\\p{L}{2}/u]`,
  `${WITHIN} > :matches(ConditionalExpression, LogicalExpression) > Literal[value=/\\p{L}{2}/u]`,
  `${WITHIN} TemplateElement[value.raw=/\\p{L}{2,} /u]:not(JSXAttribute *)`,
  'Literal[value=/^\\p{Lu}.* \\p{Ll}/u]:not(ThrowStatement Literal)',
]

/** A sentence in core or app; an error's message is for programmers, and a display of a standard's table is its own word. */
const SENTENCES = [
  'Literal[value=/^\\p{Lu}.* \\p{Ll}.*[.?!]$/u]',
  'TemplateElement[tail=true][value.raw=/\\p{L}[.?!]$/u]',
].map((selector) => ({
  selector: `${selector}:not(ThrowStatement *):not(NewExpression *):not(CallExpression[callee.name='v2'] > *)`,
  message: 'Every text a person sees stands in src/data/en, filled by fillText.',
}))

/** Tables that are read across; their rows may be longer than a line of code. */
const ALIGNED_TABLES = [
  'scripts/schemas/dataFiles.ts',
  'src/core/protocol/clockTable.ts',
  'src/core/protocol/rules.ts',
  'src/core/protocol/steps.ts',
  'src/core/record/riskTable.ts',
  'src/core/voice/phones.ts',
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
      'no-restricted-syntax': ['error', NAMED_ONLY],
    },
  },
  {
    files: ['src/**', 'scripts/**'],
    ignores: ALIGNED_TABLES,
    // A sentence that fills most of a line may run past its end; everything else is broken.
    rules: {
      'max-len': [
        'error',
        { code: 120, ignorePattern: "'[^']{60,}'|`[^`]{60,}`", ignoreUrls: true },
      ],
    },
  },
  {
    files: ['src/core/**'],
    rules: { '@typescript-eslint/no-explicit-any': 'error' },
  },
  {
    files: ['src/**'],
    ignores: ['src/adapters/time/**', 'src/adapters/crypto/**', 'src/main.tsx'],
    rules: {
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: NO_CLOCK },
        { object: 'Math', property: 'random', message: 'Take what is random as an argument.' },
      ],
      'no-restricted-syntax': [
        'error',
        NAMED_ONLY,
        { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: NO_CLOCK },
      ],
    },
  },
  {
    files: ['src/core/**', 'src/app/**'],
    // Scripts are written by those who read their faults, in English; appendFault gives the message of an error.
    ignores: ['src/core/scenario/**', 'src/core/log/appendFault.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        NAMED_ONLY,
        { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: NO_CLOCK },
        ...SENTENCES,
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
        NAMED_ONLY,
        { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: NO_CLOCK },
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
