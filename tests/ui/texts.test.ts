import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { ESLint, Linter } from 'eslint'
import { beforeAll, describe, expect, it } from 'vitest'
import tseslint from 'typescript-eslint'

const UI = 'src/ui'
const files = readdirSync(UI, { recursive: true, encoding: 'utf8' }).filter((file) =>
  /\.tsx?$/.test(file),
)

let rules: Linter.RulesRecord

/** What the linter of the screens says of a piece of code, by its own configuration. */
function said(code: string): readonly string[] {
  return new Linter()
    .verify(
      code,
      [
        {
          files: ['**/*.tsx'],
          languageOptions: {
            parser: tseslint.parser,
            parserOptions: { ecmaFeatures: { jsx: true } },
          },
          rules,
        },
      ],
      'sample.tsx',
    )
    .map(({ line, message }) => `${line}: ${message}`)
}

beforeAll(async () => {
  const config = (await new ESLint().calculateConfigForFile(`${UI}/App.tsx`)) as Linter.Config
  const rule = config.rules?.['no-restricted-syntax']
  if (!rule) throw new Error('The screens have no rule about texts.')
  rules = { 'no-restricted-syntax': rule }
})

describe('words for a person', { timeout: 30_000 }, () => {
  it('stand in no screen', () => {
    const found = files.flatMap((file) =>
      said(readFileSync(join(UI, file), 'utf8')).map((each) => `${file} ${each}`),
    )
    expect(files.length).toBeGreaterThan(40)
    expect(found).toEqual([])
  })

  it.each([
    'const x = <p>Stop</p>',
    'const x = <p>{n} tubes</p>',
    'const x = <p>für {name}</p>',
    'const x = <button aria-label="Remove" />',
    'const x = <button aria-label={`Remove ${name}`} />',
    'const x = <Field label="Name" />',
    "const x = <p>{done ? 'Read back' : state}</p>",
    "const x = <p>{done && 'Read back'}</p>",
    'const x = <p>{`Step ${n}`}</p>',
    "const hint = 'Give the name of the person.'",
  ])('are found where they hide: %s', (code) => {
    expect(said(code)).not.toEqual([])
  })

  it.each([
    'const x = <p className="drawBar where">{texts.draw.step}</p>',
    'const x = <p className={`notice ${tone}`}>{text} · {other}</p>',
    'const x = <button type="button" onClick={() => go({ name: \'home\' })} />',
    "throw new Error('The screens need an AppContext around them.')",
    'const x = <input accept=".json,application/json" autoComplete="off" />',
  ])('are not seen where there are none: %s', (code) => {
    expect(said(code)).toEqual([])
  })
})
