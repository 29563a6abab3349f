// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import { userEvent } from '@testing-library/user-event'
import { expect, it } from 'vitest'
import voice from '../../src/data/en/voice.json'
import { FILLING } from '../support/views.ts'
import { HOLD_ms } from '../../src/ui/draw/useHold.ts'
import { renderApp } from './renderApp.tsx'

const DRAW = { name: 'draw', drawId: FILLING.drawId } as const

it('the draw says that the ear is gone, beside trouble with the sound, and nobody can put it away', () => {
  const earTrouble = { what: 'The earpiece is gone (Left ear).', advice: voice.ear.advice.quiet }
  renderApp({ screen: DRAW, draw: FILLING, earTrouble, soundTrouble: voice.sound.chimesMissing })
  const alerts = screen.getAllByRole('alert').map(({ textContent }) => textContent)
  expect(alerts.some((text) => text?.includes(earTrouble.what))).toBe(true)
  expect(alerts.some((text) => text?.includes('Alarms may be silent'))).toBe(true)
  expect(screen.queryByRole('button', { name: 'Understood' })).toBeNull()
})

it('the draw says that only tones are heard, and words are given back from the sheet', async () => {
  const wordsAgain = {
    ...FILLING.otherVoice,
    command: { type: 'wordsAgain' } as const,
    label: 'Speak in words again',
    phrases: ['spoken words please'],
  }
  const draw = { ...FILLING, isTonesOnly: true, otherVoice: wordsAgain }
  const app = renderApp({ screen: DRAW, draw })
  expect(screen.getByText('Tones only')).toBeTruthy()
  await new Promise((done) => setTimeout(done, HOLD_ms + 50))
  await userEvent.click(screen.getByRole('button', { name: /What else happened/ }))
  await new Promise((done) => setTimeout(done, HOLD_ms + 50))
  const sheet = within(screen.getByRole('dialog'))
  await userEvent.click(sheet.getByRole('button', { name: /spoken words please/ }))
  expect(app.calls).toContainEqual(['command', { type: 'wordsAgain' }, 'touch'])
})

it('the draw says nothing of tones while words are spoken', () => {
  renderApp({ screen: DRAW, draw: FILLING })
  expect(screen.queryByText('Tones only')).toBeNull()
})
