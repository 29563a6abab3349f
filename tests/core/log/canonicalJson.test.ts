import { describe, expect, it } from 'vitest'
import { canonicalJson } from '../../../src/core/log/canonicalJson.ts'

describe('canonicalJson', () => {
  it('writes the example of RFC 8785 section 3.2.2 as section 3.2.3 shows it', () => {
    const text = `{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\"\\/",
      "literals": [null, true, false]
    }`
    expect(canonicalJson(JSON.parse(text))).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    )
  })

  it('sorts keys by UTF-16 code units, the example of RFC 8785 section 3.2.3', () => {
    const value = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    }
    const order = Object.values(JSON.parse(canonicalJson(value)) as Record<string, string>)
    const text = canonicalJson(value)
    const places = [
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ].map((name) => text.indexOf(name))
    expect(places).toEqual([...places].sort((a, b) => a - b))
    expect(order).toHaveLength(7)
  })

  // RFC 8785 Appendix B: IEEE 754 bits and the text they must give.
  it.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555555', '333333333.3333333'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ])('writes the double %s as %s', (bits, text) => {
    const view = new DataView(new ArrayBuffer(8))
    view.setBigUint64(0, BigInt(`0x${bits}`))
    expect(canonicalJson(view.getFloat64(0))).toBe(text)
  })

  it.each([NaN, Infinity, -Infinity])('refuses %s, as RFC 8785 Appendix B asks', (value) => {
    expect(() => canonicalJson({ value })).toThrow(RangeError)
  })

  it('refuses half a surrogate pair, as RFC 8785 section 3.2.2.2 asks', () => {
    expect(() => canonicalJson('\ud83d')).toThrow(RangeError)
    expect(() => canonicalJson({ '\ude00': 1 })).toThrow(RangeError)
    expect(canonicalJson('\ud83d\ude00')).toBe('"😀"')
  })

  it('refuses a value nested without end in words, and holds all that a file may', () => {
    const nested = (levels: number): unknown => JSON.parse('['.repeat(levels) + ']'.repeat(levels))
    expect(() => canonicalJson(nested(20_000))).toThrow(/nested deeper than 64/)
    expect(canonicalJson(nested(64))).toBe('['.repeat(64) + ']'.repeat(64))
  })

  it('leaves out undefined properties and refuses what JSON has no word for', () => {
    expect(canonicalJson({ b: undefined, a: 1 })).toBe('{"a":1}')
    expect(() => canonicalJson([undefined])).toThrow(RangeError)
    expect(() => canonicalJson(() => 1)).toThrow(RangeError)
    expect(() => canonicalJson(1n)).toThrow(RangeError)
  })
})
