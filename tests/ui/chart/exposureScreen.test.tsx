// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it, vi } from 'vitest'
import type { DrawLog } from '../../../src/core/protocol/entry.ts'
import { SERVICES } from '../../support/fakeServices.ts'
import { SAMPLE_DRAW_ID, sampleLog, sampleOpening } from '../../support/sampleLog.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const stuck = sampleLog({
  add: [
    [172, { type: 'exceptionRaised', kind: 'needlestick' }],
    [400, { type: 'exposureNoted', text: 'Washed at once.' }],
  ],
})
const { patient } = sampleOpening()

function show(name: 'exposure' | 'chart', record: DrawLog = stuck) {
  const print = vi.fn()
  const saveText = vi.fn()
  const app = renderApp(
    { screen: { name, drawId: SAMPLE_DRAW_ID }, records: new Map([[record.drawId, record]]) },
    { page: { ...SERVICES.page, print, saveText } },
  )
  return { print, saveText, calls: app.calls }
}

// A sharps injury log apart from the chart, with device, work area and how it happened: 29 CFR 1910.1030(h)(5).
describe('the page of an exposure record', () => {
  it('prints the record and nothing that names the patient', async () => {
    const { print } = show('exposure')
    const page = document.body.textContent
    expect(page).toContain('Who was stuck: Robin Example (RE)')
    expect(page).toContain('Washed at once.')
    expect(page).toMatch(/Device: 21 G winged set/)
    for (const own of [patient.fullName, patient.recordNumber, '29 Feb 1980', '1980-02-29'])
      expect(page).not.toContain(own)
    await userEvent.click(screen.getByRole('button', { name: 'Print' }))
    expect(print).toHaveBeenCalledOnce()
  })

  it('leaves as a file of its own, and takes what is told later', async () => {
    const { calls } = show('exposure')
    await userEvent.click(screen.getByRole('button', { name: 'Save exposure record' }))
    expect(calls).toContainEqual(['exportRecord', SAMPLE_DRAW_ID, 'exposure'])
    await userEvent.type(
      screen.getByLabelText(/exposure record, not for the chart/),
      'Seen at ten.',
    )
    await userEvent.click(screen.getByRole('button', { name: 'Save for the exposure record' }))
    expect(JSON.stringify(calls)).toContain('Seen at ten.')
  })

  it('is reached from the chart, whose own page says nothing of it', async () => {
    const { calls } = show('chart')
    const note = screen.getByRole('article').textContent
    expect(note).not.toMatch(/stick|stuck|Washed at once/i)
    await userEvent.click(screen.getByRole('button', { name: 'Exposure record' }))
    expect(calls).toContainEqual(['go', { name: 'exposure', drawId: SAMPLE_DRAW_ID }])
  })

  it('is none where nobody was stuck', () => {
    show('exposure', sampleLog())
    expect(screen.queryByRole('article')).toBeNull()
  })

  it('has no findings of axe', async () => {
    show('exposure')
    expect(await axeFindings()).toEqual([])
  })
})
