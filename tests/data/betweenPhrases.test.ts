import { existsSync, readFileSync } from 'node:fs'
import { Ajv } from 'ajv'
import { describe, expect, it } from 'vitest'
import { betweenPhrases } from '../../src/app/day/betweenPhrases.ts'
import { BETWEEN_COMMANDS } from '../../src/core/voice/betweenCommands.ts'
import { checkPhrases } from '../../src/core/voice/checkPhrases.ts'
import { readLexicon } from '../../src/core/voice/lexicon.ts'
import book from '../../src/data/en/betweenPhrases.json'
import schema from '../../src/data/schema/betweenPhrases.schema.json'

const lexicon = readLexicon(readFileSync('public/lexicon.en.txt', 'utf8'))

describe('the shipped phrases between patients', () => {
  it('follow their schema', () => {
    const valid = new Ajv().compile(schema)
    expect(valid(book), JSON.stringify(valid.errors)).toBe(true)
  })

  it('pass the checker without an error: all of them are open at once', () => {
    const faults = checkPhrases(book.phrases, lexicon, () => true)
    expect(faults.filter(({ weight }) => weight === 'error')).toEqual([])
  })

  it('each stand for one command', () => {
    const wordings = BETWEEN_COMMANDS.flatMap((key) => book.phrases[key])
    expect(betweenPhrases(book, true).size).toBe(wordings.length)
  })

  it('are recorded for the tests by two voices', () => {
    const files = BETWEEN_COMMANDS.flatMap((key) =>
      ['am_michael', 'bf_emma'].map(
        (voice) => `tests/fixtures/mic/${voice}/${book.phrases[key][0]?.replaceAll(' ', '_')}.wav`,
      ),
    )
    expect(files.filter((file) => !existsSync(file))).toEqual([])
  })
})
