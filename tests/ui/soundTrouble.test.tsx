// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import { userEvent } from '@testing-library/user-event'
import { expect, it } from 'vitest'
import type { SoundTest, SoundTrouble } from '../../src/ports/sound.ts'
import voice from '../../src/data/en/voice.json' with { type: 'json' }
import { appRig } from '../support/appRig.ts'
import { fakeSound } from '../support/fakeSound.ts'
import { FILLING } from '../support/views.ts'
import { renderApp } from './renderApp.tsx'

it('the draw says that alarms may be silent, with nothing to put it away', () => {
  const draw = FILLING
  renderApp({ screen: { name: 'draw', drawId: draw.drawId }, draw, soundTrouble: voice.sound.chimesMissing }) // prettier-ignore
  expect(screen.getByRole('alert').textContent).toContain('Alarms may be silent')
  expect(screen.queryByRole('button', { name: 'Understood' })).toBeNull()
})

it('the settings sound the alarm and say how it went', async () => {
  const app = renderApp({ screen: { name: 'settings' } })
  await userEvent.click(screen.getByRole('button', { name: 'Sound the alarm once' }))
  expect(app.calls).toContainEqual(['testAlarm'])
})

it('trouble with the sound lasts until the sound is well again, whatever else goes wrong', async () => {
  const sound = fakeSound()
  const rig = appRig({ sound })
  await rig.app.start(['Something else.'])
  sound.setTrouble({ code: 'chimesMissing' })
  rig.actions.dismissTrouble()
  expect(rig.state().soundTrouble?.what).toMatch(/Alarms may be silent/)
  sound.setTrouble({ code: 'heldBack' })
  expect(rig.state().soundTrouble?.what).toMatch(/browser holds all sound back/)
  sound.setTrouble(undefined)
  expect(rig.state().soundTrouble).toBeUndefined()
})

it.each<[SoundTest, RegExp]>([
  ['played', /was played/],
  ['silent', /switched off/],
  ['heldBack' satisfies SoundTrouble['code'], /Touch the screen/],
  ['chimesMissing', /cannot be loaded/],
])('a test of the alarm that was %s is put into words', async (outcome, words) => {
  const rig = appRig({ sound: { ...fakeSound(), test: () => Promise.resolve(outcome) } })
  expect(await rig.actions.testAlarm()).toMatch(words)
})
