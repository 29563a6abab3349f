// @vitest-environment jsdom
import { screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import type { DayView } from '../../src/app/view/dayViewTypes.ts'
import { dayList } from '../../src/core/day/dayList.ts'
import type { DayEvent } from '../../src/core/day/dayEvents.ts'
import { foldDays } from '../../src/core/day/dayState.ts'
import { dayEntries, sampleListed } from '../support/sampleDay.ts'
import { SAMPLE_START_ms } from '../support/sampleLog.ts'
import { renderApp } from './renderApp.tsx'

const RULES = { ownIdentity: new Set<string>(), isSeries: () => false, isFasting: () => false }
const NOW_ms = SAMPLE_START_ms + 60_000

function viewOf(...more: readonly DayEvent[]): DayView {
  const second = sampleListed({
    id: 'L2',
    patient: { fullName: 'Bo Quill', birthDate: '1971-02-03', recordNumber: 'MRN-2' },
    order: { orderNumber: 'O-2', tests: ['cbc'], priority: 'stat' },
  })
  const events: readonly DayEvent[] = [
    { type: 'orderListed', order: sampleListed({ id: 'L1' }) },
    { type: 'orderListed', order: second },
    ...more,
  ]
  const { toDo, done } = dayList(foldDays(dayEntries(events)), [], RULES, NOW_ms)
  const rows = toDo.map((group) => ({ kind: 'orders' as const, place: group.place, group }))
  return { rows, done, now_ms: NOW_ms, notTaken: [] }
}

const press = (name: string | RegExp) => userEvent.click(screen.getByRole('button', { name }))

describe('the list on the first screen', () => {
  it('shows who is next and why, calls and begins by the orders, and asks for nothing twice', async () => {
    const app = renderApp({ day: viewOf() })
    const list = screen.getByRole('region', { name: 'The list' })
    const [first] = within(list).getAllByRole('listitem')
    expect(first?.textContent).toMatch(/Next.*Bo Quill.*Stat goes before everything else/)
    await press('Begin the draw of Bo Quill')
    await press('Call Alex Invented')
    await press('Call the next patient')
    expect(app.calls).toEqual([['day.begin', ['L2']], ['day.call', ['L1']], ['day.callNext']])
  })

  it('hides names from whoever sits before the screen, also from what is read aloud', async () => {
    renderApp({ day: viewOf() })
    await press('Hide names')
    const list = screen.getByRole('region', { name: 'The list' })
    expect(list.textContent).not.toMatch(/Quill|Invented|MRN/)
    expect(within(list).queryByRole('button', { name: /Quill/ })).toBeNull()
    await press('Show names')
    expect(list.textContent).toMatch(/Bo Quill/)
  })

  it('puts off and cancels with what is typed, behind one more press', async () => {
    const app = renderApp({ day: viewOf() })
    const [more] = screen.getAllByRole('button', { name: 'More' })
    if (more) await userEvent.click(more)
    await userEvent.type(screen.getByLabelText('Why'), 'at X-ray')
    await userEvent.type(screen.getByLabelText(/^Until/), '10:30')
    await press('Put off')
    expect(app.calls).toEqual([['day.putOff', ['L2'], '10:30', 'at X-ray']])
  })

  it('tells what was not taken from files until it is understood', async () => {
    const app = renderApp({ day: { ...viewOf(), notTaken: ['Nothing of a.csv was added.'] } })
    expect(screen.getByRole('alert').textContent).toMatch(/a\.csv/)
    await press('Understood')
    expect(app.calls).toEqual([['day.dismissNotTaken']])
  })
})
