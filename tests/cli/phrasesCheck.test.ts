import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { phrasesCheckCommand } from '../../src/cli/phrasesCheckCommand.ts'
import { readLexicon } from '../../src/core/voice/lexicon.ts'

const lexicon = readLexicon(readFileSync('public/lexicon.en.txt', 'utf8'))
const file = (phrases: Record<string, unknown>): string =>
  JSON.stringify({ language: 'en', phrases })

describe('phrases:check', () => {
  it('passes the shipped phrases', () => {
    const { code, stdout } = phrasesCheckCommand(
      readFileSync('src/data/en/phrases.json', 'utf8'),
      lexicon,
    )
    expect(code).toBe(0)
    expect(stdout).toMatch(/ phrases, 0 errors, \d+ warnings\n$/)
  })

  it('names both phrases of a clash and ends with code 1', () => {
    const { code, stdout } = phrasesCheckCommand(
      file({
        pauseListening: ['stop listening', 'pause listening'],
        resumeListening: ['start listening', 'resume listening'],
      }),
      lexicon,
    )
    expect(code).toBe(1)
    expect(stdout).toContain(
      'error: "stop listening" (pauseListening) sounds like "start listening" (resumeListening)',
    )
  })

  it.each([
    ['not JSON at all', 'This is not JSON'],
    ['{}', 'has no "phrases"'],
    [file({ needleIn: 'needle in' }), '"needleIn" is not a list of wordings.'],
  ])('ends with code 2 and a sentence on what is not a phrases file: %s', (text, sentence) => {
    const { code, stderr } = phrasesCheckCommand(text, lexicon)
    expect(code).toBe(2)
    expect(stderr).toContain(sentence)
  })
})
