import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { checkPhrases, CLASH, CLOSE } from '../../../src/core/voice/checkPhrases.ts'
import { readLexicon, waysToSay } from '../../../src/core/voice/lexicon.ts'
import { phoneDistance } from '../../../src/core/voice/phoneDistance.ts'

const lexicon = readLexicon(readFileSync('public/lexicon.en.txt', 'utf8'))
const always = () => true

const distance = (a: string, b: string): number =>
  Math.min(
    ...waysToSay(a, lexicon).flatMap((x) => waysToSay(b, lexicon).map((y) => phoneDistance(x, y))),
  )
const kinds = (phrases: Record<string, string[]>, together = always): string[] =>
  checkPhrases(phrases, lexicon, together).map(({ kind }) => kind)

describe('checkPhrases', () => {
  // What our model heard instead, for 12 synthetic voices at three noise levels: measured on 2026-11-25.
  it.each([
    ['note reaction', 'no reaction'],
    ['start listening', 'stop listening'],
    ['confirm', 'confirmed'],
    ['stop draw', 'stop dry'],
  ])('calls "%s" and "%s" a clash: the model was measured to confuse them', (a, b) => {
    expect(distance(a, b)).toBeLessThan(CLASH)
    const [fault] = checkPhrases(
      { one: [a, 'something else'], two: [b, 'another thing'] },
      lexicon,
      always,
    )
    expect(fault).toMatchObject({ weight: 'error', kind: 'clash', other: { phrase: b } })
  })

  it.each([
    ['band removed', 'band released'],
    ['needle is out', 'needle out'],
    ['time check', 'done check'],
  ])('warns of "%s" and "%s": the model was measured to confuse them now and then', (a, b) => {
    expect(distance(a, b)).toBeGreaterThanOrEqual(CLASH)
    expect(distance(a, b)).toBeLessThan(CLOSE)
    expect(kinds({ one: [a, 'something else'], two: [b, 'another thing'] })).toContain('close')
  })

  // Both heard at least 23 of 24 times near-clean, never one for the other (same measurement).
  it.each([
    ['skin clean', 'skin dry'],
    ['mixing done', 'tube complete'],
    ['consent given', 'supplies checked'],
    ['next tube', 'skip tube'],
  ])('lets "%s" and "%s" stand together: the model keeps them apart', (a, b) => {
    const close = checkPhrases({ one: [a], two: [b] }, lexicon, always).filter(
      ({ kind }) => kind === 'clash',
    )
    expect(close).toEqual([])
  })

  it('does not compare commands that are never open together, nor wordings of one command', () => {
    const apart = { one: ['start listening', 'stop listening'], two: ['stop listening', 'go back'] }
    expect(kinds(apart, () => false)).toEqual([])
    expect(kinds(apart)).toContain('sameWords')
  })

  it('names the word that the model does not know', () => {
    const [fault] = checkPhrases({ one: ['aftercare told', 'advice given'] }, lexicon, always)
    expect(fault).toMatchObject({ weight: 'error', kind: 'missingWord', word: 'aftercare' })
  })

  it('warns when a phrase begins another, in either order', () => {
    const faults = checkPhrases(
      { one: ['tube complete again', 'go back'], two: ['tube complete', 'say again'] },
      lexicon,
      always,
    )
    expect(faults).toContainEqual(
      expect.objectContaining({
        kind: 'startsAnother',
        phrase: 'tube complete',
        other: { key: 'one', phrase: 'tube complete again' },
      }),
    )
  })

  it('refuses what cannot be a phrase and warns of short ones and of a single wording', () => {
    expect(kinds({ one: ['Needle in!', 'needle in'] })).toEqual(['notWritten'])
    expect(kinds({ one: ['off', 'needle in'] })).toEqual(['tooShort'])
    expect(kinds({ one: ['needle in'] })).toEqual(['oneWording'])
  })

  it('looks only at the phrases asked about, against all of them', () => {
    const phrases = { one: ['off', 'stop listening'], two: ['start listening', 'go back'] }
    const faults = checkPhrases(phrases, lexicon, always, (phrase) => phrase === 'start listening')
    expect(faults.map(({ kind }) => kind)).toEqual(['clash'])
  })
})

describe('waysToSay', () => {
  it('joins every way of every word', () => {
    const small = readLexicon('# words\n\nread\tR IY D\tR EH D\nit\tIH T\nx\n')
    expect(waysToSay('read it', small)).toEqual([
      ['R', 'IY', 'D', 'IH', 'T'],
      ['R', 'EH', 'D', 'IH', 'T'],
    ])
    expect(waysToSay('x', small)).toEqual([])
    expect(small.has('x')).toBe(true)
  })
})
