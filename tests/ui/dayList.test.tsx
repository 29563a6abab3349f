// @vitest-environment jsdom
import { cleanup, fireEvent, screen, within } from '@testing-library/react'
import userEvent from '@testing-library/user-event'
import { describe, expect, it } from 'vitest'
import type { DayView } from '../../src/app/view/dayViewTypes.ts'
import { dayList } from '../../src/core/day/dayList.ts'
import type { DayEvent } from '../../src/core/day/dayEvents.ts'
import type { OrderDraw } from '../../src/core/day/orderDraw.ts'
import { foldDays } from '../../src/core/day/dayState.ts'
import { dayEntries, sampleListed } from '../support/sampleDay.ts'
import { SAMPLE_START_ms } from '../support/sampleLog.ts'
import { axeFindings } from './axe.ts'
import { renderApp } from './renderApp.tsx'

const RULES = { ownIdentity: new Set<string>(), isSeries: () => false, isFasting: () => false }
const NOW_ms = SAMPLE_START_ms + 60_000

const viewOf = (...more: readonly DayEvent[]): DayView => viewWith([], more)
function viewWith(draws: readonly OrderDraw[], more: readonly DayEvent[]): DayView {
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
  const { toDo, done } = dayList(foldDays(dayEntries(events)), draws, RULES, NOW_ms)
  const rows = toDo.map((group) => ({ kind: 'orders' as const, place: group.place, group }))
  return { rows, done, now_ms: NOW_ms, doubled: [], notTaken: [] }
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

  it('says at which chair a patient sits who sits elsewhere, and who is next at this one', () => {
    const inChair: OrderDraw = {
      ...{
        drawId: 'B3-1',
        orderIds: ['L2'],
        opened_ms: NOW_ms - 1000,
        tests: ['cbc'],
        testsOf: {},
      },
      ...{ tubes: [], missing: [], isRefused: false },
    }
    const other = { drawId: 'B3-1', opened_ms: 0, closed: false, patientName: 'Bo Quill', invented: false, deviceName: 'Chair 2', heard_ms: 60_000 } // prettier-ignore
    const day = viewWith([inChair], [])
    renderApp({ day, others: [other] })
    const rowsHere = () =>
      within(screen.getByRole('region', { name: 'The list' })).getAllByRole('listitem')
    expect(rowsHere()[0]?.textContent).toMatch(/^Bo Quill.*in the chair on Chair 2/)
    expect(rowsHere()[1]?.textContent).toMatch(/^Next.*Alex Invented/)
    cleanup()
    // Whoever sits here comes first.
    renderApp({ day })
    expect(rowsHere()[0]?.textContent).toMatch(/^Next.*Bo Quill.*in the chair/)
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

  it('prints a round sheet of wards and homes, in the order of the list, and offers none without them', async () => {
    renderApp({ day: viewOf() })
    expect(screen.queryByRole('button', { name: 'Print the round sheet' })).toBeNull()
    cleanup()
    const home = sampleListed({
      id: 'L3',
      patient: { fullName: 'Cy Heath', birthDate: '1955-12-01', recordNumber: 'MRN-3' },
      order: { orderNumber: 'O-3', tests: ['pt'], priority: 'routine' },
      place: { kind: 'home', text: '2 Example Lane' },
      due: { kind: 'timed', at_ms: NOW_ms + 600_000, tolerance_min: 15 },
    })
    const ward = sampleListed({
      id: 'L4',
      patient: { fullName: 'Di Moor', birthDate: '1961-07-08', recordNumber: 'MRN-4' },
      order: { orderNumber: 'O-4', tests: ['cbc'], priority: 'stat' },
      place: { kind: 'ward', text: 'B2' },
    })
    const view = viewOf({ type: 'orderListed', order: home }, { type: 'orderListed', order: ward })
    renderApp({ day: view })
    // Before it is printed: on the screen the paper is not there, which jsdom does not know.
    expect(await axeFindings()).toEqual([])
    await press('Print the round sheet')
    const paper = within(screen.getByRole('article', { name: 'Round sheet' }))
    const [, ...rows] = paper.getAllByRole('row').map(({ textContent }) => textContent)
    // In the order of the list, each with two identifiers; the two of the room are not on it.
    expect(rows).toEqual([
      expect.stringMatching(/^Ward B2.*Di Moor.*1961.*MRN-4.*O-4.*Stat/i),
      expect.stringMatching(/^Home 2 Example Lane.*within 15 min.*Cy Heath.*1955.*MRN-3.*O-3/),
    ])
    fireEvent(window, new Event('afterprint'))
    expect(screen.queryByRole('article', { name: 'Round sheet' })).toBeNull()
  })

  it('tells what was not taken from files until it is understood', async () => {
    const app = renderApp({ day: { ...viewOf(), notTaken: ['Nothing of a.csv was added.'] } })
    expect(screen.getByRole('alert').textContent).toMatch(/a\.csv/)
    await press('Understood')
    expect(app.calls).toEqual([['day.dismissNotTaken']])
  })
})
