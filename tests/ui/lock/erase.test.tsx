// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import clinicTexts from '../../../src/data/en/clinic.json' with { type: 'json' }
import { LINK } from '../../support/clinicScenes.ts'
import { texts } from '../../support/lockTexts.ts'
import { SAMPLE_DRAW_ID, sampleLog } from '../../support/sampleLog.ts'
import { STATE } from '../../support/views.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const press = (name: string) => userEvent.click(screen.getByRole('button', { name }))

describe('erasing one record', () => {
  const show = () =>
    renderApp({
      screen: { name: 'chart', drawId: SAMPLE_DRAW_ID },
      records: new Map([[SAMPLE_DRAW_ID, sampleLog()]]),
    })

  it('offers the log as a file first, and takes a last deliberate press', async () => {
    const app = show()
    await press(texts.eraseOne.open)
    await press(texts.eraseOne.erase)
    expect(app.calls).toEqual([])
    await press(texts.eraseOne.save)
    expect(app.calls).toEqual([['exportRecord', SAMPLE_DRAW_ID, 'log']])
    await press(texts.eraseOne.erase)
    expect(app.calls).toHaveLength(1)
    await userEvent.click(screen.getByLabelText(texts.eraseOne.keptElsewhere))
    await press(texts.eraseOne.erase)
    expect(app.calls.at(-1)).toEqual(['eraseRecord', SAMPLE_DRAW_ID])
    expect(await axeFindings()).toEqual([])
  })

  it.each([
    ['of a clinic says that the hub keeps its copy', LINK, 1],
    ['alone says nothing of a hub', undefined, 0],
  ])('on a device %s', async (_, clinic, times) => {
    renderApp({
      screen: { name: 'chart', drawId: SAMPLE_DRAW_ID },
      records: new Map([[SAMPLE_DRAW_ID, sampleLog()]]),
      clinic,
    })
    await press(texts.eraseOne.open)
    expect(screen.queryAllByText(clinicTexts.erase)).toHaveLength(times)
  })

  it.each([
    ['everything of it is there', LINK, 0],
    ['some of it waits', { ...LINK, waiting_n: 3 }, 1],
    ['the hub is away', { ...LINK, link: 'alone' as const }, 1],
  ])('says on a device of a clinic what has not reached the hub: %s', async (_, clinic, times) => {
    renderApp({
      screen: { name: 'chart', drawId: SAMPLE_DRAW_ID },
      records: new Map([[SAMPLE_DRAW_ID, sampleLog()]]),
      clinic,
    })
    await press(texts.eraseOne.open)
    expect(screen.queryAllByText(clinicTexts.eraseUnsent)).toHaveLength(times)
  })

  it('can be left', async () => {
    const app = show()
    await press(texts.eraseOne.open)
    await press(texts.eraseOne.cancel)
    expect(screen.queryByText(texts.eraseOne.about)).toBeNull()
    expect(app.calls).toEqual([])
  })
})

describe('erasing what is older than the site keeps', () => {
  const settings = { ...STATE.settings, retention_days: 30 }
  const draws = STATE.draws.map((draw) => ({ ...draw, opened_ms: 0 }))

  it('saves the logs before it erases', async () => {
    const app = renderApp({ screen: { name: 'settings' }, settings, draws })
    const erase = screen.getByRole('button', { name: /^Erase th/ })
    expect(erase).toHaveProperty('disabled', true)
    await press(texts.records.saveAll)
    expect(app.calls).toEqual([['saveOld']])
    await userEvent.click(screen.getByRole('button', { name: /^Erase th/ }))
    expect(app.calls.at(-1)).toEqual(['eraseOld'])
  })

  it('says so where there is none, and offers nothing while no days are set', () => {
    renderApp({ screen: { name: 'settings' }, settings, draws: [] })
    expect(screen.getByText('No record is older than 30 days.')).toBeTruthy()
    expect(screen.queryByText(texts.records.saveAll)).toBeNull()
  })
})
