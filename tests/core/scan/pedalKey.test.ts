import { expect, it } from 'vitest'
import { isPedalKey } from '../../../src/core/scan/pedalKey.ts'
import { keyDown, NO_KEYS } from '../../../src/core/scan/keyReader.ts'

it.each(['F13', 'F24', 'PageDown', 'Pause', 'MediaPlayPause'])('may be %s', (code) => {
  expect(isPedalKey(code)).toBe(true)
})

it.each(['KeyB', 'Digit1', 'Numpad1', 'Space', 'Enter', 'Tab', 'Backspace', 'Escape', 'ArrowLeft', 'F5', 'F11', 'ShiftLeft', 'F25', '', 'constructor'])('may not be "%s"', (code) => {
  expect(isPedalKey(code)).toBe(false)
}) // prettier-ignore

const marks = { prefix: '', suffix: '' }
const stroke = (key: string, at_ms: number) => ({
  key,
  code: '',
  shift: false,
  repeat: false,
  at_ms,
})

it('is left alone by the reader of keys, also in the middle of a scan', () => {
  const alone = keyDown(NO_KEYS, stroke('F13', 0), marks, true)
  expect(alone).toMatchObject({ acts: [], used: false, reader: { burst: [] } })
  const begun = keyDown(NO_KEYS, stroke('A', 0), marks, true)
  const between = keyDown(begun.reader, stroke('PageDown', 20), marks, true)
  expect(between).toMatchObject({ acts: [], used: false })
  expect(between.reader.burst).toEqual(begun.reader.burst)
})
