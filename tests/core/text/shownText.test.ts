import { describe, expect, it } from 'vitest'
import { indentedText, quoted, shownText } from '../../../src/core/text/shownText.ts'

describe('shownText', () => {
  it('leaves plain text and letters of any script alone', () => {
    for (const text of ['Größe 5 µL', '採血 😀', 'علی\u200Cرضا', 'a\tb\nc']) {
      expect(shownText(text)).toBe(text)
    }
  })

  it('writes what cannot be seen as its code', () => {
    expect(shownText('An\u202Ena')).toBe('An[U+202E]na')
    expect(shownText('\u001B[31mred')).toBe('[U+001B][31mred')
    expect(shownText('a\u200Bb\uD800')).toBe('a[U+200B]b[U+D800]')
  })
})

describe('indentedText', () => {
  it.each(['\n', '\r\n', '\r', '\u2028', '\u2029', '\u0085', '\v', '\f'])(
    'sets every further line behind a bar: %j',
    (mark) => {
      expect(indentedText(`one${mark}  Consent: given`, '    ')).toBe('one\n    |   Consent: given')
    },
  )
})

describe('quoted', () => {
  it('keeps a value from outside on one line and short', () => {
    expect(quoted('a\nb\u202E')).toBe('"a[U+000A]b[U+202E]"')
    expect(quoted('x'.repeat(1_000_000))).toBe(`"${'x'.repeat(60)} ..."`)
  })
})
