import { describe, expect, it } from 'vitest'
import { readText, type TextUse } from '../../../src/core/text/readText.ts'
import { textFaultSentence } from '../../../src/core/text/textFaultSentence.ts'
import { inPlainWork } from '../../support/inPlainWork.ts'
import texts from '../../../src/data/en/text.json' with { type: 'json' }

const read = (text: string, use: TextUse = 'name', most?: number) => {
  const reading = readText(text, use, most)
  return reading.ok ? reading.value : textFaultSentence(reading.faults[0]!, 'The name', texts)
}
const kind = (text: string, use: TextUse = 'name') => {
  const reading = readText(text, use)
  return reading.ok ? undefined : reading.faults[0]?.kind
}

describe('readText', () => {
  // Common practice, no source: names as people in many places write them.
  it.each([
    'Alex Invented',
    'Zoë Ångström-Núñez',
    "D'Arcy O’Neill, Jr.",
    'Nguyễn Thị Hồng',
    '山田 太郎',
    '김 하늘',
    'محمد بن عبد الله',
    'יוסף בן־דוד',
    'สมชาย ใจดี',
    'Александра Ёлкина',
    'Baby 2 of Invented',
  ])('takes the name %s as it is', (name) => {
    expect(read(name.normalize('NFC'))).toBe(name.normalize('NFC'))
  })

  it.each([
    ['\u202E', 'direction', 'U+202E RIGHT-TO-LEFT OVERRIDE'],
    ['\u2066', 'direction', 'U+2066 LEFT-TO-RIGHT ISOLATE'],
    ['\u200F', 'direction', 'U+200F RIGHT-TO-LEFT MARK'],
    ['\u061C', 'direction', 'U+061C ARABIC LETTER MARK'],
    ['\u200B', 'invisible', 'U+200B ZERO WIDTH SPACE'],
    ['\u00AD', 'invisible', 'U+00AD SOFT HYPHEN'],
    ['\u2060', 'invisible', 'U+2060 WORD JOINER'],
    ['\uFEFF', 'invisible', 'U+FEFF ZERO WIDTH NO-BREAK SPACE'],
    ['\u3164', 'invisible', 'U+3164 HANGUL FILLER'],
    ['\u2800', 'invisible', 'U+2800 BRAILLE PATTERN BLANK'],
    ['\u{E0041}', 'invisible', 'U+E0041'],
    ['\u0000', 'control', 'U+0000 NULL'],
    ['\u001B', 'control', 'U+001B ESCAPE'],
    ['\u0009', 'control', 'U+0009 TAB'],
    ['\n', 'lineBreak', 'U+000A LINE FEED'],
    ['\u2028', 'lineBreak', 'U+2028 LINE SEPARATOR'],
    ['\u2029', 'lineBreak', 'U+2029 PARAGRAPH SEPARATOR'],
    ['\u0085', 'lineBreak', 'U+0085 NEXT LINE'],
    ['\uE000', 'private', 'U+E000'],
    ['\uFFFD', 'lost', 'U+FFFD REPLACEMENT CHARACTER'],
    ['\uD800', 'lost', 'U+D800'],
    ['\uFE0F', 'variation', 'U+FE0F VARIATION SELECTOR-16'],
  ])('refuses %j in a name and an identifier and names it', (character, what, name) => {
    expect(kind(`An${character}na`)).toBe(what)
    expect(kind(`M${character}1`, 'identifier')).toBe(what)
    expect(read(`An${character}na`)).toContain(name)
    expect(read(`An${character}na`)).toMatch(/^The name .*\.$/)
  })

  // RFC 5892 Appendix A.1 and A.2; UAX #31 section 2.3 has the same contexts. Examples: a Persian compound name,
  // Sinhala "Sri", a Malayalam chillu as written before Unicode 5.1, Devanagari with a half letter.
  it.each(['علی\u200Cرضا', 'ශ්\u200Dරී', 'അവന്\u200D', 'क्\u200Dष', 'क्\u200Cष'])(
    'takes a joiner where it is part of the writing: %s',
    (name) => expect(kind(name)).toBeUndefined(),
  )

  it.each(['An\u200Dna', 'An\u200Cna', '\u200Cعلی', 'علی\u200C', 'ا\u200Cب', 'علی\u200Dرضا'])(
    'refuses a joiner where it changes nothing: %j',
    (name) => expect(kind(name)).toBe('joiner'),
  )

  it('takes variants of ideographs (UTS #37), and Mongolian letters, and of nothing else', () => {
    expect(kind('\u908A\u{E0101}')).toBeUndefined()
    expect(kind('\u1820\u180B')).toBeUndefined()
    expect(kind('A\u{E0101}')).toBe('variation')
  })

  it('brings a text to NFC (UAX #15), and spaces of a name to one kind', () => {
    expect(read('Zoe\u0308')).toBe('Zo\u00EB')
    expect(read('  Ann\u00A0\u3000 Bee ')).toBe('Ann Bee')
  })

  it.each([
    ['\u200B', 'invisible'],
    ['\u200C\u200C', 'joiner'],
    ['--', 'noLetter'],
    ['\u0301a', 'looseMark'],
    ['a\u0301\u0302\u0303\u0304\u0306', 'manyMarks'],
    ['b\u0327\u0327', 'manyMarks'],
  ])('refuses what is no name: %j', (name, what) => expect(kind(name)).toBe(what))

  it('lets an empty text be empty: whether one is needed is for the caller', () => {
    expect(read('   ')).toBe('')
  })

  it.each([
    ['MRN\u00A01', 'space'],
    ['MRN\u30001', 'space'],
    ['\uFF21\uFF11', 'variant'],
    ['MRN\u00B2', 'variant'],
    ['\uFB01-1', 'variant'],
    ['M  1', 'spaces'],
  ])('refuses in an identifier what looks like something else: %j', (id, what) => {
    expect(kind(id, 'identifier')).toBe(what)
    expect(kind(id, 'name')).toBeUndefined()
  })

  it('lets a free text have lines, with one kind of line break', () => {
    expect(read('one\r\ntwo\rthree\tfour', 'text')).toBe('one\ntwo\nthree\tfour')
    expect(kind('one\u202Etwo', 'text')).toBe('direction')
  })

  it('counts characters, not code units, and stops early at a text that is far too long', () => {
    expect(read('😀a'.repeat(60))).toBe('😀a'.repeat(60))
    expect(read('a'.repeat(121))).toMatch(/longer than 120/)
    expect(read('a'.repeat(5_000_000))).toMatch(/longer than 120/)
  })

  it('takes no longer for a text of nothing but joiners', () => {
    const joiners = '\u200D'.repeat(40_000)
    const taken = inPlainWork(() => readText(joiners, 'text', 100_000))
    expect(taken).toBeLessThan(1)
  })

  it('says something of every kind of fault', () => {
    const words = Object.values(texts.faults)
    expect(words.every((text) => text.startsWith('{field} '))).toBe(true)
  })
})
