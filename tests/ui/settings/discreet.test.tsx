// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import { userEvent } from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src/app/site/settings.ts'
import screens from '../../../src/data/en/screens.json'
import { fakeEarpiece } from '../../support/fakeEarpiece.ts'
import { renderApp } from '../renderApp.tsx'

const { settings } = screens
const EAR = { id: 'e1', name: 'Left ear' }

function shown(
  change: Partial<typeof DEFAULT_SETTINGS> = {},
  ear: Partial<ReturnType<typeof fakeEarpiece>> = {},
) {
  const earpiece = Object.assign(fakeEarpiece(), { outputs: [EAR] }, ear)
  const app = renderApp(
    { screen: { name: 'settings' }, settings: { ...DEFAULT_SETTINGS, ...change } },
    { earpiece },
  )
  return { app, earpiece }
}

describe('the ear in the settings', () => {
  it('is chosen from the outputs of the machine, with the loudspeaker first', async () => {
    const { app } = shown()
    await screen.findByRole('option', { name: 'Left ear' })
    const list = screen.getByLabelText<HTMLSelectElement>(settings.ear)
    expect([...list.options].map(({ text }) => text)).toEqual([settings.earLoudspeaker, 'Left ear'])
    await userEvent.selectOptions(list, 'Left ear')
    expect(app.calls).toContainEqual(['changeSettings', { earId: 'e1', earName: 'Left ear' }])
  })

  it('stays in the list while it is gone, and may be given up', async () => {
    const { app } = shown({ earId: 'e1', earName: 'Left ear' }, { outputs: [] })
    const list = screen.getByLabelText<HTMLSelectElement>(settings.ear)
    expect(list.selectedOptions[0]?.text).toBe('Left ear')
    await userEvent.selectOptions(list, settings.earLoudspeaker)
    expect(app.calls).toContainEqual(['changeSettings', { earId: '', earName: '' }])
  })

  it('without a name of the browser has a number', async () => {
    shown({}, { outputs: [{ id: 'e1', name: '' }] })
    expect(await screen.findByRole('option', { name: 'Output 1' })).toBeTruthy()
  })

  it('that was plugged in a moment ago is found by looking again', async () => {
    const { earpiece } = shown({}, { outputs: [] })
    expect(await screen.findByText(settings.earNone)).toBeTruthy()
    earpiece.outputs = [EAR]
    await userEvent.click(screen.getByRole('button', { name: settings.earLook }))
    expect(await screen.findByRole('option', { name: 'Left ear' })).toBeTruthy()
    expect(screen.queryByText(settings.earNone)).toBeNull()
  })

  it('is asked for by the browser where that has a question of its own', async () => {
    const { app } = shown({}, { choosing: 'asked' })
    expect(screen.queryByLabelText(settings.ear)).toBeNull()
    await userEvent.click(screen.getByRole('button', { name: settings.earChoose }))
    expect(app.calls).toContainEqual(['changeSettings', { earId: 'e1', earName: 'Left ear' }])
  })

  it('that cannot be chosen is said plainly, and nothing is offered', () => {
    shown({}, { choosing: 'none' })
    expect(screen.getByText(settings.earHints.none)).toBeTruthy()
    expect(screen.queryByLabelText(settings.ear)).toBeNull()
    expect(screen.queryByRole('button', { name: settings.testEar })).toBeNull()
  })

  it('is tried with a tone, and how that went is told', async () => {
    const { app } = shown({ earId: 'e1', earName: 'Left ear' })
    app.answer('testEar', () => 'A tone was played to Left ear.')
    await userEvent.click(screen.getByRole('button', { name: settings.testEar }))
    expect(await screen.findByText('A tone was played to Left ear.')).toBeTruthy()
  })

  it('asks whether the loudspeaker may speak without it only where one was chosen', () => {
    shown()
    expect(screen.queryByLabelText(settings.speakWithoutEar)).toBeNull()
  })

  it('the loudspeaker may speak without it where a person says so', async () => {
    const { app } = shown({ earId: 'e1', earName: 'Left ear' })
    await userEvent.click(screen.getByLabelText(settings.speakWithoutEar))
    expect(app.calls).toContainEqual(['changeSettings', { speakWithoutEar: true }])
  })
})

describe('tones in the settings', () => {
  it('are switched on, with the words that do it in a draw', async () => {
    const { app } = shown()
    expect(screen.getByText(/say "tones only please" or "spoken words please"/)).toBeTruthy()
    await userEvent.click(screen.getByLabelText(settings.tonesOnly))
    expect(app.calls).toContainEqual(['changeSettings', { tonesOnly: true }])
  })

  it('can each be heard once they are on', async () => {
    const { app } = shown({ tonesOnly: true })
    await userEvent.click(screen.getByRole('button', { name: new RegExp(settings.tones.asked) }))
    expect(app.calls).toContainEqual(['hearTone', 'asked'])
  })
})
