// @vitest-environment jsdom
import { act, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import { FIELD_ORDER } from '../../src/app/order/draftOrder.ts'
import { blankDraft } from '../../src/app/order/planInput.ts'
import { readDraft } from '../../src/app/order/readDraft.ts'
import { fieldId } from '../../src/ui/order/useDraft.ts'
import { shippedSite } from '../support/site.ts'
import { renderApp } from './renderApp.tsx'

const blank = blankDraft(shippedSite)
const open = (draft = blank) => renderApp({ screen: { name: 'order' }, draft })
const readAt = (draft = blank) => {
  const reading = readDraft(draft, '2026-11-25', shippedSite.texts, shippedSite.catalogue)
  return reading.ok ? [] : reading.faults
}
const describedBy = (field: HTMLElement): string =>
  (field.getAttribute('aria-describedby') ?? '')
    .split(' ')
    .map((id) => document.getElementById(id)?.textContent)
    .join(' ')

describe('what the form asks for', () => {
  it('says in words which fields are required: just those that a blank form is refused for', () => {
    open()
    for (const { field } of readAt()) {
      const input = document.getElementById(fieldId(field))
      expect(input?.getAttribute('aria-required'), field).toBe('true')
      expect(input?.closest('.field')?.textContent, field).toContain('required')
    }
    expect(document.querySelectorAll('.needed')).toHaveLength(readAt().length)
  })

  it('tells what is wrong in the order of the form', () => {
    // Fields that stand only with certain answers are made to stand.
    open({
      ...blank,
      fullName: 'Oda Fennimore',
      tests: ['digoxin', 'newbornScreen'],
      questions: [{ text: 'Is it?', confirmed: false }],
    })
    const shown = FIELD_ORDER.filter((field) => document.getElementById(fieldId(field)))
    const places = shown.map((field) => document.getElementById(fieldId(field))!)
    for (const [index, input] of places.entries()) {
      const next = places[index + 1]
      if (next)
        expect(
          input.compareDocumentPosition(next) & Node.DOCUMENT_POSITION_FOLLOWING,
          shown[index],
        ).toBeTruthy()
    }
    expect(shown).toHaveLength(FIELD_ORDER.length)
    const told = readAt({ ...blank, weight_kg: '6O', fasted_h: 'x' }).map(({ field }) => field)
    expect(told).toEqual(FIELD_ORDER.filter((field) => told.includes(field)))
  })

  it('asks for a day by day, month in words and year, and speaks of it in the same way', async () => {
    const app = open()
    const user = userEvent.setup()
    const born = within(screen.getByRole('group', { name: 'Date of birth' }))
    await user.type(born.getByLabelText('Day'), '31')
    await user.selectOptions(born.getByLabelText('Month'), 'May')
    await user.type(born.getByLabelText('Year'), '1980')
    expect(app.store.getState().draft.birthDate).toBe('1980-05-31')
    const [wrong] = readAt({ ...blank, birthDate: '1980-02-31' }).filter(
      ({ field }) => field === 'birthDate',
    )
    expect(wrong?.text).toContain('such as 31 May 1980')
    act(() =>
      app.store.setState({ draftErrors: [{ field: 'birthDate', text: wrong?.text ?? '' }] }),
    )
    expect(describedBy(born.getByLabelText('Year'))).toContain('such as 31 May 1980')
    await user.clear(born.getByLabelText('Day'))
    await user.click(born.getByLabelText('Year'))
    await user.paste('7 March 1999')
    expect(app.store.getState().draft.birthDate).toBe('1999-03-07')
  })

  it('catches a letter in the weight while it is typed, and a weight that nobody has when the field is left', async () => {
    open()
    const user = userEvent.setup()
    const weight = screen.getByLabelText('Weight, kg')
    await user.type(weight, '6')
    expect(weight.getAttribute('aria-invalid')).toBeNull()
    await user.type(weight, 'O')
    expect(weight.getAttribute('aria-invalid')).toBe('true')
    expect(describedBy(weight)).toContain('"6O" is no number')
    // What is wrong stands right below the field, above its hint.
    expect(weight.nextElementSibling?.className).toBe('error')
    await user.type(weight, '{Backspace}1,5')
    expect(weight.getAttribute('aria-invalid')).toBeNull()
    await user.clear(weight)
    await user.type(weight, '900')
    expect(weight.getAttribute('aria-invalid')).toBeNull()
    await user.tab()
    expect(describedBy(weight)).toContain('from 0.3 to 400')
  })
})

describe('the form by keys alone', () => {
  it('is filled in from the first field to the plan without a pointer', async () => {
    const app = open()
    const user = userEvent.setup()
    const to = async (name: string | RegExp): Promise<void> => {
      for (let n = 0; n < 60; n++) {
        await user.tab()
        const here = document.activeElement
        const [tag] = (here as HTMLInputElement).labels ?? []
        const label = tag?.firstElementChild?.textContent ?? (tag ?? here)?.textContent
        if (typeof name === 'string' ? label === name : name.test(label ?? '')) return
      }
      throw new Error(`Tab never came to ${String(name)}.`)
    }
    screen.getByRole('heading', { level: 1 }).focus()
    await to('Family name')
    await user.keyboard('Fennimore')
    await to('Given names')
    await user.keyboard('Oda')
    await to('Day')
    await user.keyboard('8')
    await to('Month')
    await user.selectOptions(document.activeElement!, 'March')
    await to('Year')
    await user.keyboard('1971')
    await to('Record number')
    await user.keyboard('R-1')
    await to('Tests ordered')
    await user.keyboard('CBC{Enter}')
    await to('Order number')
    await user.keyboard('O-1')
    await to('Plan the tubes')
    await user.keyboard('{Enter}')
    expect(app.calls.filter(([name]) => name !== 'editDraft')).toEqual([['makePlan']])
    expect(app.store.getState().draft).toMatchObject({
      familyName: 'Fennimore',
      givenNames: 'Oda',
      birthDate: '1971-03-08',
      recordNumber: 'R-1',
      tests: ['CBC'],
      orderNumber: 'O-1',
    })
  })
})
