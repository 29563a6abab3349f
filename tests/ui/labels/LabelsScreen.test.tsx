// @vitest-environment jsdom
import { screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it, vi } from 'vitest'
import { SERVICES } from '../../support/fakeServices.ts'
import { SAMPLE_DRAW_ID, sampleLog, wrongPersonAddendum } from '../../support/sampleLog.ts'
import { STATE } from '../../support/views.ts'
import { axeFindings } from '../axe.ts'
import { renderApp } from '../renderApp.tsx'

function show(log = sampleLog({ opening: { invented: true } })) {
  const print = vi.fn()
  const app = renderApp(
    {
      screen: { name: 'labels', drawId: SAMPLE_DRAW_ID, from: 'chart' },
      records: new Map([[log.drawId, log]]),
      settings: { ...STATE.settings, paper: 'letter' },
    },
    { page: { ...SERVICES.page, print } },
  )
  return { print, calls: app.calls }
}
const sheet = (): string => document.querySelector('.labelsScreen')!.className

describe('LabelsScreen', () => {
  it('prints none for blood that an addendum calls another person’s, and says why', async () => {
    show(sampleLog({ add: [[500, wrongPersonAddendum]] }))
    expect(screen.getByText(/No label is printed. Keep the tubes apart/)).toBeTruthy()
    expect(screen.queryByRole('article')).toBeNull()
    const button = screen.getByRole<HTMLButtonElement>('button', { name: /Print/ })
    expect(button.disabled).toBe(true)
    expect(await axeFindings()).toEqual([])
  })

  it('shows on each label what the trade asks for', () => {
    show()
    const label = screen.getByRole('article', { name: 'Label D7261125000302' })
    for (const text of [
      'Alex Invented',
      'DOB 29 Feb 1980',
      'MRN-000123',
      '25 Nov 2026 09:02 RE',
      'Serum gel tube',
      'D7261125000302',
      '2 of 3',
      'PRACTICE',
    ]) {
      expect(label.textContent).toContain(text)
    }
    expect(label.firstElementChild?.textContent).toBe('Alex Invented')
    expect(screen.getByRole('img', { name: 'Code 128 bars of D7261125000302' })).toBeDefined()
  })

  it('says above the labels whose they are', () => {
    show()
    const head = screen.getByRole('heading', { level: 1, name: 'Labels' }).parentElement
    const whose = head?.nextElementSibling?.querySelector('.patientLine')
    for (const text of ['Alex Invented', 'born 29 Feb 1980', 'record number MRN-000123']) {
      expect(whose?.textContent).toContain(text)
    }
    const labels = document.querySelector('.labelsList')!
    const isAbove = whose!.compareDocumentPosition(labels) & Node.DOCUMENT_POSITION_FOLLOWING
    expect(isAbove).not.toBe(0)
  })

  it('says that a long name is shortened', () => {
    show(
      sampleLog({
        opening: {
          patient: {
            // A shorter one is printed whole, in smaller type.
            fullName:
              'Maximiliana Bartholomea Christabella Theodora Wilhelmina Wolfeschlegelsteinhaus',
            birthDate: '1980-02-29',
            recordNumber: 'MRN-1',
          },
        },
      }),
    )
    expect(screen.getByText(/Compare the record number/)).toBeDefined()
    expect(screen.getAllByText('Wolfeschlegelsteinhaus *')).toHaveLength(3)
  })

  it('changes between the label printer and a plain sheet', async () => {
    show()
    expect(sheet()).toContain('single')
    await userEvent.click(screen.getByLabelText('Plain sheet'))
    expect(sheet()).toContain('sheet')
    expect(sheet()).toContain('letter')
  })

  it('prints and goes back', async () => {
    const { print, calls } = show()
    await userEvent.click(screen.getByRole('button', { name: 'Print labels' }))
    await userEvent.click(screen.getByRole('button', { name: 'Back to the chart note' }))
    expect(print).toHaveBeenCalledOnce()
    expect(calls).toEqual([['go', { name: 'chart', drawId: SAMPLE_DRAW_ID }]])
  })

  it('prints nothing before a tube holds blood', () => {
    show(sampleLog({ without: ({ type }) => type === 'tubeOff' }))
    expect(screen.getByRole('button', { name: 'Print labels' }).hasAttribute('disabled')).toBe(true)
    expect(screen.getByText(/nothing to label/)).toBeDefined()
  })

  it('shows no label of another draw', () => {
    show(sampleLog({ opening: { drawId: 'D7-20261125-0099' } }))
    expect(screen.queryAllByRole('article')).toEqual([])
    expect(screen.getByRole('heading', { name: 'No record' })).toBeDefined()
  })

  it('has nothing that axe finds wrong', async () => {
    show()
    expect(await axeFindings()).toEqual([])
  })
})
