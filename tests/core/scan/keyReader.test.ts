import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { BURST_ms, DIGIT_WAIT_ms, keyDown, NO_KEYS, TAP_ms } from '../../../src/core/scan/keyReader.ts' // prettier-ignore
import { FAST_GAP_ms, isScanMark, NO_MARKS } from '../../../src/core/scan/judgeBurst.ts'
import { looksLikeSpecimenNumber, specimenNumber } from '../../../src/core/protocol/specimenNumber.ts' // prettier-ignore
import { LABELS } from '../../support/views.ts'
import { SAMPLE_DRAW_ID } from '../../support/sampleLog.ts'
import { codeOf, scanned, typeKeys, type Struck } from '../../support/typeKeys.ts'

/** From the fastest to the slowest that scanners can be set to (common practice: 0 to 300 ms; no source). */
const GAPS_ms = [5, 10, 20, 30, 49, 50, 51, 70, 90, 100, 119, 120, 121, 150, 170, 200, 250, 300]
const OURS = ['t1', 't2', 't3', 't12'].flatMap((tube) => [
  specimenNumber(SAMPLE_DRAW_ID, tube),
  specimenNumber('QX4A-20261231-00471234', tube),
  specimenNumber('77-20261125-0112', tube),
])
const LISTED = (LABELS.labels ?? []).flatMap(({ number }) => number ?? [])
const OTHERS = ['ABC', 'A1', '12', '123', '4006381333931', 'LOT 4711', '+A99912', '(01)0123']

const kinds = (strokes: readonly Struck[], marks = NO_MARKS): readonly string[] =>
  typeKeys(strokes, marks).map(({ act }) => act.kind)
const one = (key: string, more: Partial<Struck> = {}): Struck => ({ key, gap_ms: 1000, ...more })

describe('what a scanner types is never a choice', () => {
  it.each(GAPS_ms)('at %d ms a character', (gap_ms) => {
    for (const text of [...OURS, ...LISTED, ...OTHERS]) {
      for (const end of [['Enter'], ['Tab'], [], ['Enter', 'Enter'], ['Enter', 'Tab']]) {
        const found = typeKeys(scanned(text, gap_ms, { end }))
        expect(
          found.map(({ act }) => act.kind),
          `${text} ${end.join()}`,
        ).not.toContain('choose')
        expect(found).toHaveLength(1)
      }
    }
  })

  it('whatever it types, at any pace up to 300 ms, with whatever end', () => {
    const text = fc.string({ unit: fc.constantFrom(...'ABZ019-. /#'), minLength: 2, maxLength: 24 })
    const pace = fc.integer({ min: 1, max: 300 })
    const end = fc.constantFrom(['Enter'], ['Tab'], [], ['Enter', 'Enter'])
    fc.assert(
      fc.property(text, pace, fc.integer({ min: 1, max: 30 }), end, (typed, gap_ms, held, ends) => {
        fc.pre(!typed.startsWith(' '))
        const held_ms = Math.min(held, gap_ms)
        expect(kinds(scanned(typed, gap_ms, { held_ms, end: ends }))).not.toContain('choose')
      }),
      { numRuns: 2000 },
    )
  })

  it('also where its keys stay down until the next one', () => {
    for (const gap_ms of GAPS_ms) {
      for (const text of [...OURS, ...LISTED].filter((code) => !/^[0-9]/.test(code))) {
        const found = kinds(scanned(text, gap_ms, { held_ms: gap_ms }))
        expect(found).not.toContain('choose')
      }
    }
  })

  it('at an uneven pace', () => {
    const gaps = fc.array(fc.integer({ min: 5, max: 300 }), { minLength: 20, maxLength: 20 })
    fc.assert(
      fc.property(fc.constantFrom(...OURS), gaps, (text, times) => {
        const keys = scanned(text, 0).map((key, i) => ({ ...key, gap_ms: times[i % 20] ?? 5 }))
        expect(typeKeys(keys).map(({ act }) => act)).toEqual([{ kind: 'scan', text, by: 'form' }])
      }),
      { numRuns: 500 },
    )
  })
})

describe('a scan', () => {
  it.each(GAPS_ms)('of our own labels is known by its form at %d ms a character', (gap_ms) => {
    for (const text of OURS) {
      expect(typeKeys(scanned(text, gap_ms)).map(({ act }) => act)).toEqual([
        { kind: 'scan', text, by: 'form' },
      ])
    }
  })

  it('of another code is known by its speed, up to 50 ms a character', () => {
    const text = 'QX-0107-3'
    const act = { kind: 'scan', text, by: 'speed' }
    expect(typeKeys(scanned(text, FAST_GAP_ms))).toMatchObject([{ act }])
    expect(kinds(scanned(text, FAST_GAP_ms + 1))).toEqual(['unsure'])
    expect(kinds(scanned('A1B2', 12))).toEqual(['scan'])
    expect(kinds(scanned('A1B', 12))).toEqual(['unsure'])
  })

  it('with a late Enter is not known by speed', () => {
    const late = [...scanned('A1B2', 10, { end: [] }), one('Enter', { gap_ms: 300 })]
    expect(kinds(late)).toEqual(['unsure'])
  })

  it('that a site marks is known at any speed and length, and without an end sign', () => {
    for (const gap_ms of GAPS_ms) {
      for (const text of ['A1', '7', '123', 'QX-0107-3']) {
        const act = { kind: 'scan', text, by: 'marks' }
        const both = { prefix: '~', suffix: '#' }
        expect(typeKeys(scanned(`~${text}#`, gap_ms, { end: [] }), both)).toMatchObject([{ act }])
        expect(typeKeys(scanned(`~${text}#`, gap_ms), both)).toMatchObject([{ act }])
        const first = { prefix: '~', suffix: '' }
        expect(typeKeys(scanned(`~${text}`, gap_ms), first)).toMatchObject([{ act }])
        const last = { prefix: '', suffix: '#' }
        expect(typeKeys(scanned(`${text}#`, gap_ms), last)).toMatchObject([{ act }])
      }
    }
  })

  it('without the marks of a site that has set them is asked, and our own label is still known', () => {
    const marks = { prefix: '~', suffix: '' }
    expect(kinds(scanned('QX-0107-3', 10), marks)).toEqual(['unsure'])
    expect(kinds(scanned(OURS[0] ?? '', 10), marks)).toEqual(['scan'])
  })

  it('is read by the places of the keys where the machine has another layout', () => {
    const label = specimenNumber('QA4W-20261231-0047', 't3')
    /** What German and French layouts write for the keys of a scanner set to the United States (CLDR keyboards). */
    const german: Readonly<Record<string, string>> = { Z: 'Y', Y: 'Z', '-': 'ß' }
    const french: Readonly<Record<string, string>> = { Q: 'A', Z: 'W', A: 'Q', W: 'Z', 1: '&', 2: 'é', 3: '"', 4: "'", 5: '(', 6: '-', 7: 'è', 8: '_', 9: 'ç', 0: 'à' } // prettier-ignore
    for (const layout of [german, french]) {
      const keys = scanned(label, 70).map((struck) => ({
        ...struck,
        key: layout[struck.key] ?? struck.key,
      }))
      expect(typeKeys(keys).map(({ act }) => act)).toEqual([
        { kind: 'scan', text: label, by: 'form' },
      ])
    }
  })
})

it('keeps the layout’s own reading where both have the form: another device may have that prefix', () => {
  const label = specimenNumber('QZ4Y-20261231-0047', 't3')
  const keys = scanned(label, 70).map((struck) => ({
    ...struck,
    key: { Z: 'Y', Y: 'Z' }[struck.key] ?? struck.key,
  }))
  const text = label.replace('QZ4Y', 'QY4Z')
  expect(typeKeys(keys).map(({ act }) => act)).toEqual([{ kind: 'scan', text, by: 'form' }])
})

describe('a person', () => {
  /** Times for which fingers hold keys: about 50 to 250 ms (common knowledge of keystroke timing, no source). */
  const HELD_ms = [TAP_ms, 50, 80, 100, 150, 250, undefined]

  it.each(['1', '2', '5', '9'])('who presses %s has it within 150 ms', (key) => {
    for (const held_ms of HELD_ms) {
      const struck = one(key, { code: codeOf(key), ...(held_ms ? { held_ms } : {}) })
      const [act, ...more] = typeKeys([struck])
      expect(act?.act).toEqual({ kind: 'choose', key })
      expect((act?.at_ms ?? 0) - (act?.after_ms ?? 0)).toBe(DIGIT_WAIT_ms)
      expect(DIGIT_WAIT_ms).toBeLessThanOrEqual(150)
      expect(more).toEqual([])
    }
  })

  it('who presses Space, Enter or Backspace has it at once', () => {
    for (const [key, meant] of [[' ', 'Space'], ['Enter', 'Space'], ['Backspace', 'Backspace']] as const) {
      expect(typeKeys([one(key, { held_ms: 80 })])).toMatchObject([
        { act: { kind: 'choose', key: meant }, at_ms: 2000 },
      ])
    } // prettier-ignore
  })

  it('whose pedal only taps the key has it a little later', () => {
    const [act] = typeKeys([one('3', { code: 'Digit3', held_ms: 8 })])
    expect(act).toMatchObject({ act: { kind: 'choose', key: '3' }, at_ms: 2000 + BURST_ms })
  })

  it('who goes through a draw key by key has every key', () => {
    const keys = ['1', ' ', '2', 'Enter', '9', 'Backspace', '3'].map((key) =>
      one(key, { code: codeOf(key), gap_ms: 300, held_ms: 90 }),
    )
    expect(typeKeys(keys).map(({ act }) => act)).toEqual(
      ['1', 'Space', '2', 'Space', '9', 'Backspace', '3'].map((key) => ({ kind: 'choose', key })),
    )
  })

  it('may use the number pad, with number lock or without, and a layout that has digits with shift', () => {
    const presses: readonly Struck[] = [
      one('4', { code: 'Numpad4' }),
      one('ArrowLeft', { code: 'Numpad4' }),
      one('&', { code: 'Digit1' }),
      one('1', { code: 'Digit1', shift: true }),
      one('!', { code: 'Digit1', shift: true }),
    ]
    const meant = presses.map((press) => typeKeys([press]).map(({ act }) => act))
    const choose = (key: string) => [{ kind: 'choose', key }]
    expect(meant).toEqual([choose('4'), choose('4'), choose('1'), choose('1'), []])
  })

  it('who strikes one letter by mistake does nothing; two letters are asked about', () => {
    expect(typeKeys([one('x')])).toEqual([])
    expect(kinds([one('x'), one('y', { gap_ms: 200 })])).toEqual(['unsure'])
  })

  it('keeps Enter and Space for the button that has the focus', () => {
    for (const key of [' ', 'Enter']) {
      const { acts, used } = keyDown(
        NO_KEYS,
        { key, code: key, shift: false, repeat: false, at_ms: 5 },
        NO_MARKS,
        false,
      )
      expect({ acts, used }).toEqual({ acts: [], used: false })
    }
  })

  it('does not lose Enter to a digit long past', () => {
    const keys = [one('1', { held_ms: 80 }), one('Enter', { gap_ms: 200 })]
    expect(typeKeys(keys).map(({ act }) => act)).toEqual([
      { kind: 'choose', key: '1' },
      { kind: 'choose', key: 'Space' },
    ])
  })

  it('who strikes a digit and Enter in one go is asked', () => {
    expect(kinds([one('1'), one('Enter', { gap_ms: 90 })])).toEqual(['unsure'])
    expect(kinds([one('1'), one(' ', { gap_ms: 90 })])).toEqual(['unsure'])
  })
})

describe('a held key', () => {
  it('counts once, whether the machine marks its repeats or only sends the key again', () => {
    for (const key of [' ', 'Enter', '2', 'Backspace']) {
      const down = (at_ms: number, repeat: boolean) =>
        ({ key, code: key, shift: false, repeat, at_ms }) as const
      for (const repeat of [true, false]) {
        const again = Array.from({ length: 30 }, (_, i) => 500 + 33 * i)
        let reader = keyDown(NO_KEYS, down(0, false), NO_MARKS, true)
        let acts = reader.acts.length
        for (const at_ms of again) {
          reader = keyDown(reader.reader, down(at_ms, repeat), NO_MARKS, true)
          acts += reader.acts.length
          expect(reader.used).toBe(true)
        }
        expect(acts).toBe(key === '2' ? 0 : 1)
      }
    }
  })

  it('counts again once it has come up', () => {
    const keys = [one(' ', { held_ms: 80 }), one(' ', { held_ms: 80 })]
    expect(kinds(keys)).toEqual(['choose', 'choose'])
  })

  it('leaves the page its arrows and Tab', () => {
    for (const key of ['ArrowDown', 'PageDown', 'Tab', 'Escape', 'F5', 'Shift']) {
      const stroke = { key, code: key, shift: false, repeat: false, at_ms: 0 }
      const first = keyDown(NO_KEYS, stroke, NO_MARKS, true)
      const second = keyDown(first.reader, { ...stroke, repeat: true, at_ms: 500 }, NO_MARKS, true)
      expect([first.used, second.used, first.acts]).toEqual([false, false, []])
    }
  })
})

describe('the form of our numbers', () => {
  it.each(OURS)('%s has it', (text) => {
    expect(looksLikeSpecimenNumber(text)).toBe(true)
    expect(looksLikeSpecimenNumber(text.toLowerCase())).toBe(true)
  })

  it.each(['', 'D7', '4006381333931', 'QX-0107-3', `${OURS[0] ?? ''}111`, `${OURS[0] ?? ''} `])(
    '%j has not',
    (text) => {
      expect(looksLikeSpecimenNumber(text)).toBe(false)
    },
  )
})

it.each([
  ['', true],
  ['~', true],
  ['#$%&', true],
  ['#$%&!', false],
  ['A', false],
  ['1', false],
  [' ', false],
  ['é', false],
])('%j as a sign of the scanner: %s', (text, fits) => {
  expect(isScanMark(text)).toBe(fits)
})
