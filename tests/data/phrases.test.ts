import { readFileSync } from 'node:fs'
import { Ajv } from 'ajv'
import { describe, expect, it } from 'vitest'
import { CHOICE_KEYS, PLAIN_COMMANDS } from '../../src/core/protocol/commands.ts'
import { checkPhrases } from '../../src/core/voice/checkPhrases.ts'
import { readLexicon } from '../../src/core/voice/lexicon.ts'
import { openTogether } from '../../src/core/voice/openTogether.ts'
import book from '../../src/data/en/phrases.json'
import schema from '../../src/data/schema/phrases.schema.json'

const lexicon = readLexicon(readFileSync('public/lexicon.en.txt', 'utf8'))

describe('the shipped phrases', () => {
  it('follow their schema', () => {
    const valid = new Ajv().compile(schema)
    expect(valid(book), JSON.stringify(valid.errors)).toBe(true)
  })

  it('give every command that can be spoken at least two wordings', () => {
    const lists: Record<string, readonly string[] | undefined> = book.phrases
    const keys = [...PLAIN_COMMANDS, ...CHOICE_KEYS]
    expect(Object.keys(lists).sort()).toEqual([...keys].sort())
    expect(keys.filter((key) => (lists[key]?.length ?? 0) < 2)).toEqual([])
  })

  it('pass the checker without an error: every word is known and nothing clashes', () => {
    const faults = checkPhrases(book.phrases, lexicon, openTogether)
    expect(faults.filter(({ weight }) => weight === 'error')).toEqual([])
  })
})
