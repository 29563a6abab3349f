import { ESLint, Linter } from 'eslint'
import tseslint from 'typescript-eslint'
import { beforeAll, describe, expect, it } from 'vitest'

let rules: Linter.RulesRecord

beforeAll(async () => {
  const config = (await new ESLint().calculateConfigForFile(
    'src/core/plan/planDraw.ts',
  )) as Linter.Config
  const rule = config.rules?.['no-restricted-syntax']
  if (!rule) throw new Error('Core has no rule about sentences.')
  rules = { 'no-restricted-syntax': rule }
})

/** How often the linter of core speaks against a piece of code, by its own configuration. */
const faults = (code: string): number =>
  new Linter().verify(code, [{ languageOptions: { parser: tseslint.parser }, rules }]).length

describe('sentences for a person', { timeout: 30_000 }, () => {
  it.each([
    "const text = 'The order names no test.'",
    "const text = late ? 'Mixed late.' : ''",
    'const text = `Hematocrit ${pct} % is not possible. Check it.`',
    'const text = `${tube} was not drawn.`',
  ])('do not stand in core or app: %s', (code) => expect(faults(code)).toBe(1))

  it.each([
    "const source = 'common practice, no source'",
    "throw new RangeError('The log does not open a draw.')",
    "const asked = v2('0916', 'FNA', 'Fasting not asked of the patient at time of procedure.')",
    'const id = `${drawId}/${name}`',
  ])('what is none may: %s', (code) => expect(faults(code)).toBe(0))
})
