// @vitest-environment jsdom
import { cleanup, render, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it, vi } from 'vitest'
import { PatientSection } from '../../../src/ui/patient/PatientSection.tsx'
import { AppContext } from '../../../src/ui/shared/appContext.tsx'
import { openingOf } from '../../../src/core/record/openingOf.ts'
import { LEAFLETS } from '../../../src/data/languages.ts'
import { fakeApp } from '../../support/fakeApp.ts'
import { fakeReader } from '../../support/fakeReader.ts'
import { SERVICES } from '../../support/fakeServices.ts'
import { SAMPLE_DRAW_ID, sampleLog } from '../../support/sampleLog.ts'
import { PLAN } from '../../support/plans.ts'
import { FILLING, STATE } from '../../support/views.ts'
import { renderApp } from '../renderApp.tsx'

const log = sampleLog({ opening: { patientLanguage: 'es' } })

describe('the leaflet for the patient', () => {
  it('is printed in the language of the patient, and tells no test and no number', async () => {
    const print = vi.fn()
    renderApp(
      { screen: { name: 'chart', drawId: SAMPLE_DRAW_ID }, records: new Map([[log.drawId, log]]) },
      { page: { ...SERVICES.page, print } },
    )
    await userEvent.click(screen.getByRole('button', { name: "Print the patient's leaflet" }))
    const leaflet = screen.getByRole('article', { name: 'Después de su extracción de sangre' })
    expect(leaflet.lang).toBe('es')
    expect(leaflet.textContent).toContain('25 nov 2026')
    expect(leaflet.textContent).not.toMatch(/\{\w+\}/)
    expect(leaflet.textContent).not.toContain(openingOf(log).patient.recordNumber)
    expect(print).toHaveBeenCalledOnce()
  })

  it('can be printed in another language than was chosen in the draw', async () => {
    renderApp({
      screen: { name: 'chart', drawId: SAMPLE_DRAW_ID },
      records: new Map([[log.drawId, log]]),
    })
    await userEvent.selectOptions(screen.getByLabelText('Language for the patient'), 'English')
    await userEvent.click(screen.getByRole('button', { name: "Print the patient's leaflet" }))
    expect(screen.getByRole('article', { name: 'After your blood draw' }).lang).toBe('en')
  })
})

describe('what the patient is told in the draw', () => {
  const view = { ...FILLING.patient, language: 'es' as const }
  const show = (spanish = fakeReader(), silent = false) => {
    const onSend = vi.fn()
    const app = fakeApp({}, { readers: { en: fakeReader(), es: spanish } })
    app.store.setState(({ settings }) => ({ settings: { ...settings, silent } }))
    render(
      <AppContext value={app}>
        <PatientSection view={view} onSend={onSend} />
      </AppContext>,
    )
    return { spanish, onSend }
  }

  it('is read aloud sentence by sentence in their language, with the limits of the site', async () => {
    const { spanish } = show()
    const after = screen.getByRole('heading', { name: 'Aftercare in Spanish' }).parentElement!
    await userEvent.click(within(after).getByRole('button', { name: 'Read aloud' }))
    expect(spanish.texts).toHaveLength(LEAFLETS.es.aftercare.arm.length)
    expect(spanish.texts[0]).toBe(LEAFLETS.es.aftercare.arm[0])
    expect(spanish.texts.join(' ')).toMatch(/por lo menos \d+ minutos/)
  })

  it('is shown, and said to be read out, where no voice of theirs lives on the machine', () => {
    show({ ...fakeReader(), isThere: () => false })
    expect(screen.queryByRole('button', { name: 'Read aloud' })).toBeNull()
    expect(screen.getAllByText(/This browser has no voice in Spanish/)).toHaveLength(2)
    expect(screen.getByText(LEAFLETS.es.explanation.arm[0]!)).toBeTruthy()
  })

  it('changes its language by a command that is recorded', async () => {
    const { onSend } = show()
    await userEvent.selectOptions(screen.getByLabelText('Language for the patient'), 'English')
    expect(onSend).toHaveBeenCalledWith({ type: 'choosePatientLanguage', language: 'en' })
  })
})

describe('where the setting names a language that waits for the end of a draw', () => {
  const around = { ...STATE.settings, language: 'es' as const }
  const chosen = () => screen.getByLabelText<HTMLSelectElement>('Language for the patient').value

  it('a plan shows the language with which its draw will open', () => {
    const view = { screen: { name: 'plan' } as const, settings: around, plan: PLAN }
    renderApp({ ...view, draft: { ...STATE.draft, patientLanguage: '' } })
    expect(chosen()).toBe('en')
  })

  it('so do a draw and a record from before there was a choice', () => {
    const { language: _, ...older } = FILLING.patient
    const app = fakeApp({ settings: around })
    render(
      <AppContext value={app}>
        <PatientSection view={older} onSend={vi.fn()} />
      </AppContext>,
    )
    expect(chosen()).toBe('en')
    cleanup()
    const old = sampleLog()
    renderApp({
      screen: { name: 'chart', drawId: SAMPLE_DRAW_ID },
      records: new Map([[old.drawId, old]]),
      settings: around,
    })
    expect(chosen()).toBe('en')
  })
})

describe('the language of the screens', () => {
  it('is offered on the first screen in its own words', async () => {
    const { calls } = renderApp({ screen: { name: 'home' } })
    await userEvent.click(screen.getByRole('button', { name: 'Español' }))
    expect(calls).toContainEqual(['changeSettings', { language: 'es' }])
  })

  it('is chosen in the settings, which say what stays English', async () => {
    const { calls } = renderApp({ screen: { name: 'settings' } })
    await userEvent.selectOptions(screen.getByLabelText('Language of this device'), 'Español')
    expect(calls).toContainEqual(['changeSettings', { language: 'es' }])
    expect(screen.getByText(/Phrases are said in English/)).toBeTruthy()
    expect(screen.getByText(/translated by us and not by a translator/)).toBeTruthy()
  })
})
