import { readFileSync } from 'node:fs'
import { Ajv } from 'ajv'
import { describe, expect, it } from 'vitest'
import { allWordings } from '../../src/app/site/phraseBook.ts'
import { CHOICE_KEYS, PLAIN_COMMANDS } from '../../src/core/protocol/commands.ts'
import { checkPhrases } from '../../src/core/voice/checkPhrases.ts'
import { readLexicon } from '../../src/core/voice/lexicon.ts'
import { openTogether } from '../../src/core/voice/openTogether.ts'
import book from '../../src/data/en/phrases.json'
import prompts from '../../src/data/en/prompts.json'
import schema from '../../src/data/schema/phrases.schema.json'
import { UNSAID } from '../../scripts/schemas/unsaid.ts'

const lexicon = readLexicon(readFileSync('public/lexicon.en.txt', 'utf8'))

/**
 * What a review by the trade would not have said in front of a patient: of harm, of somebody else's blood, of a tube or
 * label that is wrong, of a try that failed.
 */
const FRIGHTENS =
  /wrong|not this patient|bright|pain|faint|sick|swell|bleeding c|still bleed|stuck|sharps injury|refuse|consent withdrawn|says stop|stop everything|everything stop|is broken|dropped|expired|missing|rolled|rolling|no flow|flow is lost|slow flow|no flash|no blood came|second attempt|no vein|too sick|not well|clotted/

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
    const faults = checkPhrases(allWordings(book), lexicon, openTogether)
    expect(faults.filter(({ weight }) => weight === 'error')).toEqual([])
  })

  it('know every word of a neutral wording, which clashes with nothing and is not even close', () => {
    const neutral: ReadonlySet<string> = new Set(Object.values(book.discreet))
    const faults = checkPhrases(allWordings(book), lexicon, openTogether, (phrase) =>
      neutral.has(phrase),
    )
    expect(faults.filter(({ kind }) => kind !== 'oneWording')).toEqual([])
  })

  it('have a neutral wording for whatever frightens a patient or tells of what went wrong', () => {
    const plain: Record<string, readonly string[]> = book.phrases
    const named = Object.keys(plain).filter((key) =>
      plain[key]?.some((wording) => FRIGHTENS.test(wording)),
    )
    expect(named.filter((key) => !UNSAID.some((each) => each === key))).toEqual([])
    expect(Object.keys(book.discreet).sort()).toEqual([...UNSAID].sort())
    expect(Object.values(book.discreet).filter((wording) => FRIGHTENS.test(wording))).toEqual([])
  })

  it('are no words that the app itself speaks: it would answer itself', () => {
    const spoken = Object.values(prompts.prompts).map((text) =>
      text.toLowerCase().replaceAll(/[^a-z ]/g, ''),
    )
    const neutral = Object.values(book.discreet)
    expect(neutral.filter((wording) => spoken.some((text) => text.includes(wording)))).toEqual([])
  })
})
