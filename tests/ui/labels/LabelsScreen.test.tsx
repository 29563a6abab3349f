// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { labelsFor } from '../../../src/core/record/labels.ts'
import { LabelsScreen } from '../../../src/ui/labels/LabelsScreen.tsx'
import { sampleLog } from '../../support/sampleLog.ts'
import { axeFindings } from '../axe.ts'

afterEach(cleanup)

function show(log = sampleLog({ opening: { invented: true } })) {
  const onPrint = vi.fn()
  const onBack = vi.fn()
  const { container } = render(
    <LabelsScreen labels={labelsFor(log)} paper="letter" onPrint={onPrint} onBack={onBack} />,
  )
  return { onPrint, onBack, container }
}

describe('LabelsScreen', () => {
  it('shows on each label what the trade asks for', () => {
    show()
    const label = screen.getByRole('article', { name: 'Label D7261125000302' })
    for (const text of [
      'Alex Invented',
      'DOB 29 Feb 1980',
      'No. MRN-000123',
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

  it('says that a long name is shortened', () => {
    show(
      sampleLog({
        opening: {
          patient: {
            fullName: 'Maximiliana Bartholomea Christabella Wolfeschlegelsteinhaus',
            birthDate: '1980-02-29',
            recordNumber: 'MRN-1',
          },
        },
      }),
    )
    expect(screen.getByRole('note').textContent).toMatch(/Compare the record number/)
    expect(screen.getAllByText('Wolfeschlegelsteinhaus *')).toHaveLength(3)
  })

  it('changes between the label printer and a plain sheet', async () => {
    const { container } = show()
    expect(container.querySelector('main')?.className).toContain('labels-screen--single')
    await userEvent.click(screen.getByLabelText('Plain sheet'))
    const { className } = container.querySelector('main')!
    expect(className).toContain('labels-screen--sheet')
    expect(className).toContain('labels-screen--letter')
  })

  it('prints and goes back', async () => {
    const { onPrint, onBack } = show()
    await userEvent.click(screen.getByRole('button', { name: 'Print labels' }))
    await userEvent.click(screen.getByRole('button', { name: 'Back' }))
    expect(onPrint).toHaveBeenCalledOnce()
    expect(onBack).toHaveBeenCalledOnce()
  })

  it('prints nothing before a tube holds blood', () => {
    show(sampleLog({ without: ({ type }) => type === 'tubeOff' }))
    expect(screen.getByRole('button', { name: 'Print labels' }).hasAttribute('disabled')).toBe(true)
    expect(screen.getByText(/nothing to label/)).toBeDefined()
  })

  it('has nothing that axe finds wrong', async () => {
    show()
    expect(await axeFindings()).toEqual([])
  })
})
