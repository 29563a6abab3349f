// @vitest-environment jsdom
import { cleanup, render, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { writeNote } from '../../../src/core/record/note.ts'
import { specimenRisks } from '../../../src/core/record/risk.ts'
import { ChartScreen, type ChartScreenProps } from '../../../src/ui/chart/ChartScreen.tsx'
import { noteTemplate } from '../../support/noteTemplate.ts'
import { sampleCollector, sampleLog } from '../../support/sampleLog.ts'
import { axeFindings } from '../axe.ts'

afterEach(cleanup)

const log = sampleLog({
  opening: { invented: true },
  without: ({ type }) => type === 'consentGiven',
  add: [
    [105, { type: 'fistNoted' }],
    [500, { type: 'addendumMade', by: sampleCollector, text: 'Right arm.', why: 'Slip.' }],
  ],
})

function show(change: Partial<ChartScreenProps> = {}) {
  const props: ChartScreenProps = {
    note: writeNote(log, noteTemplate),
    risks: specimenRisks(log),
    tubeName: (id) => `Tube ${id}`,
    paper: 'A4',
    closed: true,
    onCopy: vi.fn(() => Promise.resolve(true)),
    onPrint: vi.fn(),
    onExport: vi.fn(),
    onAddendum: vi.fn(),
    onLabels: vi.fn(),
    onBack: vi.fn(),
    ...change,
  }
  const { container } = render(<ChartScreen {...props} />)
  return { props, container }
}

describe('ChartScreen', () => {
  it('shows the whole note, the practice warning first, and what is missing in words', () => {
    const { props } = show()
    const note = screen.getByRole('article')
    expect(within(note).getAllByRole('note')[0]?.textContent).toBe(noteTemplate.invented)
    for (const { title, lines } of props.note.sections) {
      expect(within(note).getByRole('heading', { name: title })).toBeDefined()
      for (const { value } of lines) expect(note.textContent).toContain(value)
    }
    expect(within(note).getByText('Consent').parentElement?.textContent).toBe('Consentnot recorded')
  })

  it('keeps the note and shows the addendum below it with who, when and why', () => {
    show()
    const addenda = screen.getByRole('heading', { name: 'Addenda' }).parentElement
    expect(addenda?.textContent).toContain('Right arm.')
    expect(addenda?.textContent).toContain(
      'Robin Example (RE), 2026-11-25T09:08:20+01:00. Reason: Slip.',
    )
  })

  it('shows each risk with figures, reason, source and tubes', () => {
    const { props } = show()
    const risks = screen.getByRole('region', { name: 'For the laboratory to know' })
    const [risk] = props.risks
    expect(risks.textContent).toContain('Fist clenched: Tube t1, Tube t2, Tube t3')
    expect(risks.textContent).toContain(risk?.source)
    expect(risks.textContent).toContain(risk?.why)
  })

  it('copies the text and says whether that worked', async () => {
    const { props } = show()
    await userEvent.click(screen.getByRole('button', { name: 'Copy as text' }))
    expect(props.onCopy).toHaveBeenCalledWith(props.note.text)
    expect(screen.getByRole('status').textContent).toBe('Copied.')
    cleanup()
    show({ onCopy: () => Promise.resolve(false) })
    await userEvent.click(screen.getByRole('button', { name: 'Copy as text' }))
    expect(screen.getByRole('status').textContent).toMatch(/Select the text instead/)
  })

  it.each([
    ['Save note', 'note'],
    ['Save FHIR', 'fhir'],
    ['Save signed log', 'log'],
  ])('%s asks for the %s', async (name, format) => {
    const { props } = show()
    await userEvent.click(screen.getByRole('button', { name }))
    expect(props.onExport).toHaveBeenCalledWith(format)
  })

  it('takes a correction only with a text and a reason', async () => {
    const { props } = show()
    const add = screen.getByRole('button', { name: 'Add to the record' })
    expect(add.hasAttribute('disabled')).toBe(true)
    await userEvent.type(screen.getByLabelText('What should be added'), ' Left arm. ')
    expect(add.hasAttribute('disabled')).toBe(true)
    await userEvent.type(screen.getByLabelText('Why'), 'Slip')
    await userEvent.click(add)
    expect(props.onAddendum).toHaveBeenCalledWith('Left arm.', 'Slip')
  })

  it('offers no correction while the draw is open, and says what went wrong', () => {
    show({ closed: false, trouble: 'The log cannot be signed.' })
    expect(screen.queryByRole('button', { name: 'Add to the record' })).toBeNull()
    expect(screen.getByRole('alert').textContent).toBe('The log cannot be signed.')
  })

  it('has nothing that axe finds wrong', async () => {
    show()
    expect(await axeFindings()).toEqual([])
  })
})
