// @vitest-environment jsdom
import { expect, it } from 'vitest'
import { NO_MARKS } from '../../src/core/scan/judgeBurst.ts'
import { listenToKeys } from '../../src/ui/shared/listenToKeys.ts'

/** Types into a field at the speed of a machine; answers whether the last key reached the field. */
function reachesField(text: string, last: string): boolean {
  const field = document.body.appendChild(document.createElement('input'))
  const end = listenToKeys(document, { marks: () => NO_MARKS, onAct: () => true })
  const strike = (key: string): boolean =>
    field.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }))
  for (const letter of text) {
    strike(letter)
    field.dispatchEvent(new KeyboardEvent('keyup', { key: letter, bubbles: true }))
  }
  const reached = strike(last)
  end()
  field.remove()
  return reached
}

it.each(['123456', 'D7261125000302', '12'])(
  'Backspace behind "%s" in a field reaches the field, however fast it was typed',
  (text) => {
    expect(reachesField(text, 'Backspace')).toBe(true)
  },
)

it('Enter behind a label of ours in a field still sends no form', () => {
  expect(reachesField('D7261125000302', 'Enter')).toBe(false)
  expect(reachesField('123456', 'Enter')).toBe(true)
})
