import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { jsonFaultSentence, parseJson } from '../../../src/core/text/parseJson.ts'
import { scanJson } from '../../../src/core/text/scanJson.ts'
import { inPlainWork } from '../../support/inPlainWork.ts'
import texts from '../../../src/data/en/text.json' with { type: 'json' }

/** The engine's own reader, as the outside check. */
function engine(text: string): boolean {
  try {
    JSON.parse(text)
    return true
  } catch {
    return false
  }
}

const kindOf = (text: string) => scanJson(text)?.kind
const STRICTER = new Set(['tooDeep', 'doubledKey', 'reservedKey', 'tooLarge'])

describe('parseJson', () => {
  it('reads what JSON.parse reads, and gives the same', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 5 }), fc.nat(4), (value, indent) => {
        const text = JSON.stringify(value, null, indent)
        const reading = parseJson(text)
        if (reading.ok) expect(reading.value).toEqual(JSON.parse(text))
        else expect(reading.faults[0]?.kind).toBe('reservedKey')
      }),
    )
  })

  it('refuses what JSON.parse refuses, whatever was changed in a text', () => {
    const text = '{"a":[1,-2.5e-3,true,null,"x\\u00e4\\n"],"b":{"c":[],"d":{}},"e":false}'
    const piece = fc.constantFrom(
      ...'{}[]",:\\ue0-+.1tfn \n\u0000xé'.split(''),
      '"a":',
      '1e',
      'nul',
    )
    fc.assert(
      fc.property(fc.nat(text.length), fc.nat(3), piece, (at, cut, put) => {
        const changed = text.slice(0, at) + put + text.slice(at + cut)
        const fault = scanJson(changed)
        if (!STRICTER.has(fault?.kind ?? '')) expect(fault === undefined).toBe(engine(changed))
      }),
      { numRuns: 3000 },
    )
  })

  // RFC 8259, and the cases that parsers are known to differ in (from memory of published test suites).
  it.each([
    '',
    ' ',
    '[1,]',
    '[,1]',
    '{"a":1,}',
    '{a:1}',
    "{'a':1}",
    '[01]',
    '[+1]',
    '[.5]',
    '[1.]',
    '[1e]',
    '[NaN]',
    '[Infinity]',
    '["\t"]',
    '["\\x"]',
    '["\\u12"]',
    '[1]]',
    '{"a" 1}',
    '\uFEFF{}',
    '[true false]',
    '"abc',
    '[1] x',
  ])('refuses %j', (text) => {
    expect(engine(text)).toBe(false)
    expect(parseJson(text).ok).toBe(false)
  })

  it.each([
    ['{"a":NaN}', 'notJson', 5],
    ['\uFEFF{"a":1}', 'notJson', 0],
    ['{"a":1', 'breaksOff', 6],
    ['["abc', 'breaksOff', 5],
    ['[tru', 'breaksOff', 4],
    ['{"a":1}}', 'notJson', 7],
    ['["a\nb"]', 'notJson', 3],
  ])('gives the true place in %j', (text, kind, at) => {
    expect(scanJson(text)).toMatchObject({ kind, at })
  })

  it('names a key that stands twice, also where one is written otherwise, with the way to it', () => {
    const text =
      '{"entry":[{},{"resource":{"birthDate":"1980-01-01",\n "birth\\u0044ate":"1981-01-01"}}]}'
    const fault = scanJson(text)
    expect(fault).toMatchObject({ kind: 'doubledKey', path: 'entry[1].resource.birthDate' })
    expect(jsonFaultSentence(fault!, text, texts.json)).toBe(
      '"entry[1].resource.birthDate" stands twice, in line 2, column 2, and nobody can know which of the two counts.',
    )
    expect(scanJson('[{"a":1},{"a":1}]')).toBeUndefined()
  })

  it.each([
    ['{"__proto__":{"x":1}}', 'reservedKey'],
    ['{"a":1e400}', 'tooLarge'],
    ['[-1e999]', 'tooLarge'],
  ])('refuses %s', (text, kind) => expect(kindOf(text)).toBe(kind))

  it('takes constructor and the like as plain names', () => {
    expect(parseJson('{"constructor":1,"toString":2}').ok).toBe(true)
  })

  it.each([
    ['lists', '['.repeat(20_000)],
    ['closed lists', '['.repeat(20_000) + ']'.repeat(20_000)],
    ['objects', '{"a":'.repeat(20_000)],
  ])(
    'says of 20,000 levels of %s that they are too many, and is not brought down',
    (_what, text) => {
      expect(kindOf(text)).toBe('tooDeep')
    },
  )

  it.each([
    ['a string of 5 MB', JSON.stringify('x\\n'.repeat(1_500_000))],
    ['a million quotation marks', '"'.repeat(1_000_000)],
    ['a number of a million digits', `[${'1'.repeat(1_000_000)}]`],
    ['many empty lists', `[${'[],'.repeat(300_000)}[]]`],
    ['a hundred thousand names', `{${Array.from({ length: 1e5 }, (_, i) => `"k${i}":0`).join()}}`],
  ])('takes little work for %s', (_what, text) => {
    const taken = inPlainWork(() => parseJson(text))
    expect(taken).toBeLessThan(30)
  })
})
