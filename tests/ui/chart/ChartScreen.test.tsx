// @vitest-environment jsdom
import { cleanup, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it, vi } from 'vitest'
import type { AppState } from '../../../src/app/appApi.ts'
import { testInfo } from '../../../src/app/record/testInfo.ts'
import { recordNote } from '../../../src/core/record/recordNote.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { SERVICES } from '../../support/fakeServices.ts'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { SAMPLE_DRAW_ID, sampleCollector, sampleLog } from '../../support/sampleLog.ts'
import { shippedSite } from '../../support/site.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

const log = sampleLog({
  opening: { invented: true },
  without: ({ type }) => type === 'consentGiven',
  add: [
    [105, { type: 'fistNoted' }],
    [500, { type: 'addendumMade', by: sampleCollector, text: 'Right arm.', why: 'Slip.' }],
  ],
})

const { testName, needsFasting } = testInfo(shippedSite.catalogue)
const note = recordNote(log, shippedSite.texts, testName, needsFasting)
const risks = specimenRisks(log, shippedSite.texts.record, needsFasting)

function show(record = log, change: Partial<AppState> = {}, copied = true) {
  const copyText = vi.fn(() => Promise.resolve(copied))
  const app = renderApp(
    {
      screen: { name: 'chart', drawId: SAMPLE_DRAW_ID },
      records: new Map([[record.drawId, record]]),
      ...change,
    },
    { page: { ...SERVICES.page, copyText } },
  )
  return { copyText, calls: app.calls }
}

describe('ChartScreen', () => {
  it('shows the whole note, the practice warning first, and what is missing in words', () => {
    show()
    const article = screen.getByRole('article')
    expect(within(article).getAllByRole('note')[0]?.textContent).toBe(noteTemplate.invented)
    for (const { title, lines } of note.sections) {
      expect(within(article).getByRole('heading', { name: title })).toBeDefined()
      for (const { value } of lines) expect(article.textContent).toContain(value)
    }
    expect(within(article).getByText('Consent').parentElement?.textContent).toBe(
      'Consentnot recorded',
    )
  })

  it('keeps the note and shows the addendum below it with who, when and why', () => {
    show()
    const addenda = screen.getByRole('heading', { name: 'Addenda' }).parentElement
    expect(addenda?.textContent).toContain('Right arm.')
    expect(addenda?.textContent).toContain(
      'Robin Example (RE), 25 Nov 2026 09:08:20 UTC+01:00. Reason: Slip.',
    )
  })

  it('shows each risk with figures, reason, source and tubes', () => {
    show()
    const told = screen.getByRole('heading', { name: 'For the laboratory to know' }).parentElement
    const sources = screen.getByRole('region', {
      name: 'Sources of what the laboratory should know',
    })
    const [risk] = risks
    expect(told?.textContent).toContain('Fist clenched')
    expect(told?.textContent).toContain('Citrate tube, Serum gel tube, EDTA tube')
    expect(told?.textContent).toContain(risk?.why)
    expect(sources.textContent).toContain('Fist clenched')
    expect(sources.textContent).toContain(risk?.source)
    // What was found and why it matters is told once, in the note.
    expect(sources.textContent).not.toContain(risk?.why)
  })

  it('says above the note whose record it is', () => {
    show()
    expect(screen.getByRole('heading', { level: 1, name: 'Chart note' })).toBeDefined()
    const line = document.querySelector('main .patientLine')
    const note = screen.getByRole('article')
    expect(line?.compareDocumentPosition(note)).toBe(Node.DOCUMENT_POSITION_FOLLOWING)
    for (const text of ['Alex Invented', 'born 29 Feb 1980', 'record number MRN-000123']) {
      expect(line?.textContent).toContain(text)
    }
  })

  it('shows no record of another draw', () => {
    show(sampleLog({ opening: { drawId: 'D7-20261125-0099' } }))
    expect(screen.queryByRole('article')).toBeNull()
    expect(screen.getByRole('heading', { name: 'No record' })).toBeDefined()
  })

  it('copies the text and says whether that worked', async () => {
    const { copyText } = show()
    await userEvent.click(screen.getByRole('button', { name: 'Copy as text' }))
    expect(copyText).toHaveBeenCalledWith(note.text)
    expect(screen.getByRole('status').textContent).toBe('Copied.')
    cleanup()
    show(log, {}, false)
    await userEvent.click(screen.getByRole('button', { name: 'Copy as text' }))
    expect(screen.getByRole('status').textContent).toMatch(/Select the text instead/)
  })

  it.each([
    ['Save note', 'note'],
    ['Save ruler (SVG)', 'strip'],
    ['Save for another system (FHIR)', 'fhir'],
    ['Save for the record server (FHIR)', 'transaction'],
    ['Save the whole record, signed', 'log'],
  ])('%s asks for the %s', async (name, format) => {
    const { calls } = show()
    await userEvent.click(screen.getByRole('button', { name }))
    expect(calls).toEqual([['exportRecord', SAMPLE_DRAW_ID, format]])
  })

  it('takes a correction only with a text and a reason', async () => {
    const { calls } = show()
    const add = screen.getByRole('button', { name: 'Add to the record' })
    expect(add.hasAttribute('disabled')).toBe(true)
    await userEvent.type(screen.getByLabelText('What should be added'), ' Left arm. ')
    expect(add.hasAttribute('disabled')).toBe(true)
    await userEvent.type(screen.getByLabelText('Why'), 'Slip')
    await userEvent.click(add)
    expect(calls).toEqual([['addAddendum', SAMPLE_DRAW_ID, 'Left arm.', 'Slip']])
  })

  it('takes from whoever corrects that the record is of another person', async () => {
    const { calls } = show()
    await userEvent.type(screen.getByLabelText('What should be added'), 'Taken from bed 4.')
    await userEvent.type(screen.getByLabelText('Why'), 'Blood group differs')
    await userEvent.click(screen.getByLabelText(/drawn from another person/))
    await userEvent.click(screen.getByRole('button', { name: 'Add to the record' }))
    expect(calls).toEqual([
      ['addAddendum', SAMPLE_DRAW_ID, 'Taken from bed 4.', 'Blood group differs', true],
    ])
  })

  it('offers no correction while the draw is open, and says what went wrong', () => {
    const open = sampleLog({ without: ({ type }) => type === 'drawClosed' })
    show(open, { trouble: 'The log cannot be signed.' })
    expect(screen.queryByRole('button', { name: 'Add to the record' })).toBeNull()
    expect(screen.getByRole('alert').textContent).toContain('The log cannot be signed.')
  })

  it('has nothing that axe finds wrong', async () => {
    show()
    expect(await axeFindings()).toEqual([])
  })
})
